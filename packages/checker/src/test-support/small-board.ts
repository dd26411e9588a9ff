/** Boards of a few bars for tests, written as chords with their grips. */
import type { Bar, Board, Lane, LaneId, Section, Silence, Slot } from "@halflap/board/board";
import { barId, formEntryId, sectionId, silenceId, slotId } from "@halflap/board/ids";
import { type Grip, parseGrip } from "@halflap/theory/grip";
import { parseKey } from "@halflap/theory/key";
import { parseChord } from "@halflap/theory/parse-chord";
import { defaultSetup, type Setup } from "@halflap/theory/tuning";
import { assert, fret, ticks } from "@halflap/theory/units";

/** A chord with the grips of the upper and the lower lane; "-" = no grip. */
export type Played = readonly [chord: string, upper: string, lower: string];
/** The slots of one 4/4 bar, of equal length. */
export type PlayedBar = readonly Played[];

/** What a small board has besides its bars; all bars lie in sections A, B, ... */
export type SmallBoard = {
  readonly sections: readonly (readonly PlayedBar[])[];
  readonly key?: string;
  readonly hasBass?: boolean;
  /** Section numbers from 0 in the order played; once each unless given. */
  readonly form?: readonly number[];
  /** With a capo the grips count from it. */
  readonly capo?: Partial<Readonly<Record<LaneId, number>>>;
  /** Bar numbers from 1 in which a lane rests. */
  readonly layOuts?: Partial<Readonly<Record<LaneId, readonly number[]>>>;
  readonly silences?: readonly { readonly rule: string; readonly bars: readonly number[] }[];
  readonly players?: Board["members"];
};

const barLength = ticks(192);

/** A board in which bars are b1, b2, ... and slots s1, s2, ... in chart order. */
export function smallBoard(small: SmallBoard): Board {
  const key = parseKey(small.key ?? "C");
  assert(key.ok, `no key: ${small.key}`);
  const sections = sectionsOf(small.sections);
  const form = small.form ?? sections.map((_, index) => index);
  return {
    title: "A few bars",
    key: key.value,
    tempo: 100,
    meter: { beats: 4, unit: 4 },
    feel: "straight",
    hasBass: small.hasBass ?? true,
    sections,
    form: form.map((section, index) => ({
      id: formEntryId(`f${index}`),
      section: sectionId(`section${section}`),
      times: 1,
    })),
    silences: (small.silences ?? []).map(
      ({ rule, bars }, index): Silence => ({
        id: silenceId(`q${index}`),
        rule,
        bars: bars.map((bar) => barId(`b${bar}`)),
        reason: "we like it so",
      }),
    ),
    lanes: { upper: laneOf("upper", small), lower: laneOf("lower", small) },
    members: small.players ?? [],
    setAside: { bars: [], texts: new Map(), slots: [] },
  };
}

/** One section of bars with one slot each: the shortest way to write most tests. */
export function bars(...played: readonly Played[]): SmallBoard["sections"] {
  return [played.map((slot) => [slot])];
}

function sectionsOf(all: SmallBoard["sections"]): readonly Section[] {
  let barCount = 0;
  let slotCount = 0;
  const slotOf = ([chord]: Played, index: number, bar: PlayedBar): Slot => {
    const read = parseChord(chord);
    const length = ticks(barLength / bar.length);
    slotCount += 1;
    return {
      id: slotId(`s${slotCount}`),
      start: ticks(length * index),
      length,
      text: chord,
      chord: read.ok ? read.value : undefined,
    };
  };
  const barOf = (bar: PlayedBar): Bar => {
    barCount += 1;
    return {
      id: barId(`b${barCount}`),
      number: barCount,
      length: barLength,
      slots: bar.map(slotOf),
    };
  };
  return all.map((section, index) => ({
    id: sectionId(`section${index}`),
    name: "ABCDEFGH".charAt(index),
    borrows: undefined,
    bars: section.map(barOf),
  }));
}

function laneOf(id: LaneId, small: SmallBoard): Lane {
  const capo = fret(small.capo?.[id] ?? 0);
  const setup: Setup = { ...defaultSetup, capo, fretsFrom: "capo" };
  const texts = small.sections.flat(2).map((slot) => (id === "upper" ? slot[1] : slot[2]));
  const grips = texts.flatMap((text, index) =>
    text === "-" ? [] : [[slotId(`s${index + 1}`), gripOf(text, setup)] as const],
  );
  return {
    id,
    owner: small.players?.[id === "upper" ? 0 : 1]?.id,
    setup,
    grips: new Map(grips),
    layOuts: new Set((small.layOuts?.[id] ?? []).map((bar) => barId(`b${bar}`))),
    marks: new Map(),
  };
}

function gripOf(text: string, setup: Setup): Grip {
  const read = parseGrip(text, setup);
  assert(read.ok, `no grip: ${text}`);
  return read.value;
}
