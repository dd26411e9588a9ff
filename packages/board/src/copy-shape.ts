/** The JSON copy's fields, ranges and references, as SPEC.md writes them down. */
import { type Key, parseKey } from "@halflap/theory/key";
import type { Feel, LaneId, Meter } from "./board.ts";
import {
  type Decode,
  exactly,
  type Fault,
  lineOf,
  listOf,
  matching,
  maybe,
  numberIn,
  objectOf,
  oneOf,
  truth,
  wholeIn,
} from "./decode.ts";
import { type LaneCopy, laneShape } from "./lane-copy.ts";
import * as limits from "./limits.ts";
import { isBarLength } from "./meter.ts";
import { contentId, storedId } from "./playing-shape.ts";
import { type SongCopy, songShapes } from "./song-shape.ts";

/** `at` = ticks from the start of the bar, 48 a quarter. */
export type SlotCopy = { readonly id: string; readonly at: number; readonly chord: string };
/** `length` in ticks only where the bar differs from the meter. */
export type BarCopy = {
  readonly id: string;
  readonly length?: number;
  readonly slots: readonly SlotCopy[];
};
/** A section plays bars of its own or borrows another's; while it borrows, its own are at rest. */
export type SectionCopy = {
  readonly id: string;
  readonly name: string;
  readonly borrows?: string;
  readonly bars: readonly BarCopy[];
};
/** A slot that has no bar; `was` = where it stood, if that is known. */
export type LooseSlotCopy = {
  readonly id: string;
  readonly chord: string;
  readonly was?: { readonly bar: string; readonly at: number };
};
export type FormEntryCopy = {
  readonly id: string;
  readonly section: string;
  readonly times: number;
};
export type SilenceCopy = {
  readonly id: string;
  readonly rule: string;
  readonly bars: readonly string[];
  readonly reason: string;
};
export type BoardCopy = SongCopy & {
  readonly format: "halflap-board";
  readonly version: 2;
  readonly title: string;
  readonly key: Key;
  readonly tempo: number;
  readonly meter: Meter;
  readonly feel: Feel;
  readonly hasBass: boolean;
  readonly countIn: number;
  readonly ending: string;
  readonly blueNotes: boolean;
  readonly distorted: boolean;
  readonly sections: readonly SectionCopy[];
  /** Empty while nobody wrote a form: then each section is played once. */
  readonly form: readonly FormEntryCopy[];
  readonly silences: readonly SilenceCopy[];
  readonly setAside: {
    readonly bars: readonly BarCopy[];
    readonly slots: readonly LooseSlotCopy[];
  };
  readonly lanes: Readonly<Record<LaneId, LaneCopy>>;
};

const feels: readonly Feel[] = ["straight", "swing", "shuffle"];

const meter = objectOf<Meter>({
  beats: wholeIn(1, limits.meterBeatsMax),
  unit: oneOf([2, 4, 8, 16] as const),
});

const slot = objectOf<SlotCopy>({
  id: storedId,
  at: wholeIn(0, Number.MAX_SAFE_INTEGER),
  chord: lineOf(limits.chordTextMax),
});

const bar = objectOf<BarCopy>({
  id: storedId,
  length: maybe(matching(isBarLength, "the length of a meter, in ticks")),
  slots: listOf(slot, limits.setAsideMax),
});

const looseSlot = objectOf<LooseSlotCopy>({
  id: storedId,
  chord: lineOf(limits.chordTextMax),
  was: maybe(
    objectOf<NonNullable<LooseSlotCopy["was"]>>({
      bar: storedId,
      at: wholeIn(0, Number.MAX_SAFE_INTEGER),
    }),
  ),
});

const section = objectOf<SectionCopy>({
  id: storedId,
  name: lineOf(limits.nameMax),
  borrows: maybe(storedId),
  bars: listOf(bar, limits.barsMax),
});

const formEntry = objectOf<FormEntryCopy>({
  id: storedId,
  section: storedId,
  times: wholeIn(1, limits.timesMax),
});

const silence = objectOf<SilenceCopy>({
  id: storedId,
  rule: lineOf(limits.ruleMax),
  bars: listOf(contentId, limits.silencedBarsMax),
  reason: lineOf(limits.reasonMax),
});

const key: Decode<Key> = (value, path) => {
  const fields = objectOf<{ readonly tonic: string; readonly mode: Key["mode"] }>({
    tonic: lineOf(limits.nameMax),
    mode: oneOf(["major", "minor"] as const),
  })(value, path);
  if (!fields.ok) return fields;
  const read = parseKey(`${fields.value.tonic} ${fields.value.mode}`);
  if (read.ok) return { ok: true, value: read.value };
  return { ok: false, error: { path: `${path}.tonic`, words: "must be a key's tonic: C, Bb, F#" } };
};

/** The whole copy, field by field; what its ids refer to is `brokenReference`'s. */
export function copyShape(format: BoardCopy["format"], version: BoardCopy["version"]) {
  return objectOf<BoardCopy>({
    format: exactly(format),
    version: exactly(version),
    title: lineOf(limits.titleMax),
    key,
    tempo: numberIn(limits.tempoMin, limits.tempoMax),
    meter,
    feel: oneOf(feels),
    hasBass: truth,
    countIn: wholeIn(0, limits.countInMax),
    ending: lineOf(limits.endingMax),
    blueNotes: truth,
    distorted: truth,
    ...songShapes,
    sections: listOf(section, limits.sectionsMax),
    form: listOf(formEntry, limits.formEntriesMax),
    silences: listOf(silence, limits.silencesMax),
    setAside: objectOf<BoardCopy["setAside"]>({
      bars: listOf(bar, limits.setAsideMax),
      slots: listOf(looseSlot, limits.setAsideMax),
    }),
    lanes: objectOf<BoardCopy["lanes"]>({ upper: laneShape, lower: laneShape }),
  });
}

/** The first id that stands twice or refers to nothing, if there is one. */
export function brokenReference(copy: BoardCopy): Fault | undefined {
  const sections = new Set(copy.sections.map(({ id }) => id));
  const barsIn = (bars: readonly BarCopy[], path: string) =>
    bars.map(({ id, slots }, i) => ({ id, slots, path: `${path}[${i}]` }));
  const bars = [
    ...copy.sections.flatMap((each, i) => barsIn(each.bars, `sections[${i}].bars`)),
    ...barsIn(copy.setAside.bars, "setAside.bars"),
  ];
  const slots = bars.flatMap(({ path, slots }) => paths(slots, `${path}.slots`));
  return (
    repeated(paths(copy.sections, "sections")) ??
    repeated(bars) ??
    repeated([...slots, ...paths(copy.setAside.slots, "setAside.slots")]) ??
    repeated(paths(copy.form, "form")) ??
    repeated(paths(copy.silences, "silences")) ??
    missing(sections, copy.sections, ({ borrows }) => borrows, "sections", "borrows") ??
    missing(sections, copy.form, (entry) => entry.section, "form", "section") ??
    unknownSinger(copy) ??
    unknownStrum(copy) ??
    tooManyBars(copy)
  );
}

function paths(things: readonly { readonly id: string }[], path: string) {
  return things.map(({ id }, i) => ({ id, path: `${path}[${i}]` }));
}

function repeated(ids: readonly { readonly id: string; readonly path: string }[]) {
  const seen = new Set<string>();
  for (const { id, path } of ids) {
    if (seen.has(id)) return { path: `${path}.id`, words: `"${id}" stands twice` };
    seen.add(id);
  }
  return undefined;
}

function missing<T>(
  sections: ReadonlySet<string>,
  things: readonly T[],
  sectionOf: (thing: T) => string | undefined,
  path: string,
  field: string,
): Fault | undefined {
  for (const [i, thing] of things.entries()) {
    const id = sectionOf(thing);
    if (id === undefined || sections.has(id)) continue;
    return { path: `${path}[${i}].${field}`, words: `no section has the id "${id}"` };
  }
  return undefined;
}

function unknownSinger({ singers, voices }: BoardCopy): Fault | undefined {
  for (const [entry, rounds] of Object.entries(singers)) {
    const id = rounds.find((voice) => voice !== null && !Object.hasOwn(voices, voice));
    if (id === undefined) continue;
    return { path: `singers.${entry}`, words: `no voice has the id "${id}"` };
  }
  return undefined;
}

function unknownStrum({ lanes }: BoardCopy): Fault | undefined {
  for (const [name, lane] of Object.entries(lanes)) {
    const uses: readonly (readonly [string, string | undefined])[] = [
      ["strumLane", lane.strumLane],
      ...(["strumSections", "strumBars", "strumPasses"] as const).flatMap((table) =>
        Object.entries(lane[table]).map(([id, strum]) => [`${table}.${id}`, strum] as const),
      ),
    ];
    for (const [place, id] of uses) {
      if (id === undefined || Object.hasOwn(lane.strums, id)) continue;
      return { path: `lanes.${name}.${place}`, words: `no strum has the id "${id}"` };
    }
  }
  return undefined;
}

function tooManyBars(copy: BoardCopy): Fault | undefined {
  const bars = copy.sections.reduce((sum, { bars }) => sum + bars.length, 0);
  return bars <= limits.barsMax
    ? undefined
    : { path: "sections", words: `hold more than ${limits.barsMax} bars` };
}
