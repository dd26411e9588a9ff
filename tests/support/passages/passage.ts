/**
 * Passages for two lanes, written compactly: a chart as a band writes it, a grip for each chord,
 * strums, fills and phrases as they are typed, and what a musician would say of it.
 */
import type { BarAim, LaneId } from "@halflap/board/board";
import { draftCopy, parseChartText } from "@halflap/board/chart-text";
import type { BoardCopy, LaneCopy } from "@halflap/board/copy";
import { parseFillText } from "@halflap/board/fill-text";
import { parseMelodyText } from "@halflap/board/melody-text";
import { barLengthOf, beatOf } from "@halflap/board/meter";
import type { Dynamic } from "@halflap/board/playing";
import type { VoiceType } from "@halflap/board/singing";
import { stepFor } from "@halflap/board/strum-text";
import { defaultSetup, type Setup } from "@halflap/theory/tuning";
import { assert, fret, midiNote, type Ticks, ticks } from "@halflap/theory/units";

/** Values by bar: "1" or "1-3". */
type ByBars<T> = Readonly<Record<string, T>>;

/** A fill or line by its bar: from which beat, for how many, and its notes as typed. */
export type PassageFill = readonly [bar: number, beat: number, beats: number, notes: string];

export type PassagePart = {
  /** A grip a chord, in the order of the chart: "-" none, "%" the same; bar lines are free. */
  readonly grips: string;
  /** One bar of strokes, for the whole passage or by bars. */
  readonly strum?: string | ByBars<string>;
  readonly feel?: "board" | "straight" | "swing";
  readonly capo?: number;
  /** Six MIDI notes, low string first. */
  readonly tuning?: readonly number[];
  readonly fills?: readonly PassageFill[];
  /** Written out from note to note, in the place of strokes. */
  readonly lines?: readonly PassageFill[];
  readonly palmMutes?: readonly number[];
  readonly letRings?: readonly number[];
  readonly rests?: readonly number[];
  readonly dynamics?: ByBars<Dynamic>;
};

export type Passage = {
  readonly name: string;
  readonly chart: string;
  readonly upper: PassagePart;
  readonly lower: PassagePart;
  readonly singer?: { readonly type: VoiceType; readonly lane?: LaneId };
  /** Bar, beat and how many beats; with the melody where it is written. */
  readonly sung?: readonly (readonly [bar: number, beat: number, beats: number, melody?: string])[];
  readonly aims?: ByBars<readonly BarAim[]>;
  readonly limits?: Readonly<Record<string, number>>;
  readonly distorted?: boolean;
  readonly blueNotes?: boolean;
  /** Each finding but plain notes, as "R01 fix both 1-4", and why a musician would say so. */
  readonly expected: readonly (readonly [finding: string, why: string])[];
};

/** The passage as a copy of a whole board: its chart text read, its lanes written in. */
export function copyOfPassage(passage: Passage): BoardCopy {
  const read = parseChartText(passage.chart);
  assert(read.draft !== undefined, `${passage.name}: ${read.problems[0]?.words}`);
  let made = 0;
  const copy = draftCopy(read.draft, () => {
    made += 1;
    return `id${made}`;
  });
  const { distorted = false, blueNotes = false, limits = {} } = passage;
  return {
    ...copy,
    ...{ distorted, blueNotes, limits, countIn: 1, ending: "stop on one" },
    aims: byBar(copy, passage.aims ?? {}),
    ...singingOf(copy, passage),
    lanes: { upper: laneOf(copy, passage.upper), lower: laneOf(copy, passage.lower) },
  };
}

/** The bars of a copy from first to last. */
export function barsOf(copy: BoardCopy) {
  return copy.sections.flatMap(({ bars }) => bars);
}

function barIdOf(copy: BoardCopy, number: number): string {
  const bar = barsOf(copy)[number - 1];
  assert(bar !== undefined, `there is no bar ${number}`);
  return bar.id;
}

function byBar<T>(copy: BoardCopy, values: ByBars<T>): Readonly<Record<string, T>> {
  return Object.fromEntries(
    Object.entries(values).flatMap(([range, value]) => {
      const [from = 0, to = from] = range.split("-").map(Number);
      return barsOf(copy)
        .slice(from - 1, to)
        .map(({ id }) => [id, value]);
    }),
  );
}

function singingOf(copy: BoardCopy, { singer, sung = [] }: Passage) {
  const beat = beatOf(copy.meter);
  const phrases = sung.map(([bar, from, beats, melody = ""], index) => {
    const stretch = stretchOf(from, beats, beat);
    const read = parseMelodyText(melody, stretch);
    assert(read.ok || melody === "", `no melody: ${melody}`);
    const { start, length } = stretch;
    const notes = read.ok ? read.value : [];
    return [`phrase${index}`, { bar: barIdOf(copy, bar), start, length, melody: notes }] as const;
  });
  const form = copy.sections.map(({ id }) => ({ id: `pass-${id}`, section: id, times: 1 }));
  const voices: BoardCopy["voices"] =
    singer === undefined ? {} : { singer: { name: "Singer", ...singer } };
  const singers = singer === undefined ? [] : form.map(({ id }) => [id, ["singer"]] as const);
  return {
    phrases: Object.fromEntries(phrases),
    ...{ form, voices, singers: Object.fromEntries(singers) },
  };
}

function laneOf(copy: BoardCopy, part: PassagePart): LaneCopy {
  const { capo = 0, tuning = defaultSetup.tuning, feel = "board" } = part;
  const setup: Setup = {
    ...{ ...defaultSetup, tuning: tuning.map(midiNote) },
    ...{ capo: fret(capo), fretsFrom: "capo" },
  };
  const ids = (numbers: readonly number[] = []) => numbers.map((bar) => barIdOf(copy, bar));
  const strum = typeof part.strum === "string" ? { "1-999": part.strum } : (part.strum ?? {});
  const texts = [...new Set(Object.values(strum))];
  const nameOf = (text: string) => `strum${texts.indexOf(text)}`;
  const named = Object.entries(strum).map(([range, text]) => [range, nameOf(text)] as const);
  const strums = texts.map((text) => {
    const step = stepFor(barLengthOf(copy.meter), [...text.replace(/[>~ ]/g, "")].length);
    assert(step !== undefined, `this does not fill a bar: ${text}`);
    return [nameOf(text), { name: text, step, feel, palmMute: false, steps: text }] as const;
  });
  const figures = [
    ...(part.fills ?? []).map((fill) => figureOf(copy, fill, "fill", setup)),
    ...(part.lines ?? []).map((line) => figureOf(copy, line, "line", setup)),
  ];
  return {
    ...{ tuning: setup.tuning, capo, fretsFrom: "capo" },
    ...{ lastFret: defaultSetup.lastFret, scaleLength: defaultSetup.scaleLength },
    ...gripsOf(copy, part.grips),
    ...{ layOuts: ids(part.rests), marks: {} },
    ...{ strums: Object.fromEntries(strums), strumSections: {}, strumPasses: {} },
    strumBars: byBar(copy, Object.fromEntries(named)),
    fills: Object.fromEntries(figures.map((figure, index) => [`figure${index}`, figure])),
    dynamics: byBar(copy, part.dynamics ?? {}),
    ...{ palmMutes: ids(part.palmMutes), letRings: ids(part.letRings), restingPasses: [] },
  };
}

function gripsOf(copy: BoardCopy, text: string): Pick<LaneCopy, "grips" | "chosenFor"> {
  const slots = barsOf(copy).flatMap((bar) => bar.slots);
  const written = text.split(/[\s|]+/).filter((grip) => grip !== "");
  assert(written.length === slots.length, `${written.length} grips for ${slots.length} chords`);
  const grips: [string, string][] = [];
  const chosenFor: [string, string][] = [];
  for (const [index, slot] of slots.entries()) {
    const grip = written[index] === "%" ? grips.at(-1)?.[1] : written[index];
    if (grip === undefined || grip === "-") continue;
    grips.push([slot.id, grip]);
    chosenFor.push([slot.id, slot.chord]);
  }
  return { grips: Object.fromEntries(grips), chosenFor: Object.fromEntries(chosenFor) };
}

function figureOf(
  copy: BoardCopy,
  [bar, from, beats, text]: PassageFill,
  kind: "fill" | "line",
  setup: Setup,
) {
  const stretch = stretchOf(from, beats, beatOf(copy.meter));
  const read = parseFillText(text, stretch, setup);
  assert(read.ok, `no fill: ${text}${read.ok ? "" : ` (${read.error.words})`}`);
  const { start, length } = stretch;
  return { bar: barIdOf(copy, bar), start, length, kind, together: false, notes: read.value };
}

function stretchOf(from: number, beats: number, beat: Ticks) {
  return { start: ticks((from - 1) * beat), length: ticks(beats * beat), beat };
}
