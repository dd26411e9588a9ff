/** Boards of a few bars for tests, written as chords with their grips. */
import type {
  Bar,
  BarAim,
  Board,
  Lane,
  LaneId,
  Section,
  Silence,
  Slot,
} from "@halflap/board/board";
import { barId, formEntryId, sectionId, silenceId, slotId, voiceId } from "@halflap/board/ids";
import { barLengthOf, commonTime } from "@halflap/board/meter";
import { usualWishes } from "@halflap/board/wishes";
import { type Grip, parseGrip } from "@halflap/theory/grip";
import { parseKey } from "@halflap/theory/key";
import { parseChord } from "@halflap/theory/parse-chord";
import { defaultSetup, type Setup } from "@halflap/theory/tuning";
import { assert, fret, ticks } from "@halflap/theory/units";
import { type ByLane, barNumbered, playingOf, type SmallPlaying } from "./small-playing.ts";
import { type SmallSinging, singingOf } from "./small-singing.ts";

/** A chord with the grips of the upper and the lower lane; "-" = no grip. */
export type Played = readonly [chord: string, upper: string, lower: string];
/** The slots of one bar, of equal length. */
export type PlayedBar = readonly Played[];

/** What a small board has besides its bars; all bars lie in sections A, B, ... */
export type SmallBoard = SmallPlaying &
  SmallSinging & {
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
    readonly tempo?: number;
    readonly meter?: Board["meter"];
    readonly feel?: Board["feel"];
    readonly aims?: Readonly<Record<number, readonly BarAim[]>>;
    readonly limits?: Readonly<Record<string, number>>;
    /** Anything else of the board. */
    readonly more?: Partial<Board>;
    readonly laneMore?: ByLane<Partial<Lane>>;
  };

const singer = voiceId("singer");

/** A board in which bars are b1, b2, ... and slots s1, s2, ... in chart order. */
export function smallBoard(small: SmallBoard): Board {
  const key = parseKey(small.key ?? "C");
  assert(key.ok, `no key: ${small.key}`);
  const sections = sectionsOf(small);
  const form = small.form ?? sections.map((_, index) => index);
  return {
    title: "A few bars",
    key: key.value,
    tempo: small.tempo ?? 100,
    meter: meterOf(small),
    feel: small.feel ?? "straight",
    hasBass: small.hasBass ?? true,
    countIn: 1,
    ending: "on one, let ring",
    blueNotes: false,
    distorted: false,
    sections,
    form: form.map((section, index) => ({
      id: formEntryId(`f${index}`),
      section: sectionId(`section${section}`),
      times: 1,
      singers: small.voice === undefined ? [] : [singer],
    })),
    silences: silencesOf(small),
    voices: small.voice === undefined ? [] : [{ ...small.voice, id: singer, name: "the singer" }],
    ...singingOf(small, meterOf(small)),
    aims: new Map(
      Object.entries(small.aims ?? {}).map(([bar, aims]) => [barNumbered(Number(bar)), aims]),
    ),
    limits: new Map(Object.entries(small.limits ?? {})),
    proposals: [],
    lanes: { upper: laneOf("upper", small), lower: laneOf("lower", small) },
    members: small.players ?? [],
    takes: [],
    setAside: { bars: [], texts: new Map(), slots: [], waiting: [] },
    ...small.more,
  };
}

/** One section of bars with one slot each: the shortest way to write most tests. */
export function bars(...played: readonly Played[]): SmallBoard["sections"] {
  return [played.map((slot) => [slot])];
}

function sectionsOf(small: SmallBoard): readonly Section[] {
  const barLength = barLengthOf(meterOf(small));
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
      rounds: undefined,
      slots: bar.map(slotOf),
    };
  };
  return small.sections.map((section, index) => ({
    id: sectionId(`section${index}`),
    name: "ABCDEFGH".charAt(index),
    borrows: undefined,
    bars: section.map(barOf),
  }));
}

function laneOf(id: LaneId, small: SmallBoard): Lane {
  const capo = fret(small.capo?.[id] ?? 0);
  const own = small.laneMore?.[id];
  const setup: Setup = own?.setup ?? { ...defaultSetup, capo, fretsFrom: "capo" };
  const texts = small.sections.flat(2).map((slot) => (id === "upper" ? slot[1] : slot[2]));
  const grips = texts.flatMap((text, index) =>
    text === "-" ? [] : [[slotId(`s${index + 1}`), gripOf(text, setup)] as const],
  );
  return {
    id,
    owner: small.players?.[id === "upper" ? 0 : 1]?.id,
    setup,
    grips: new Map(grips),
    layOuts: new Set(small.layOuts?.[id]?.map(barNumbered)),
    marks: new Map(),
    chosenFor: new Map(),
    ...playingOf(id, small, meterOf(small)),
    restingPasses: new Set(),
    wishes: usualWishes,
    ...own,
  };
}

function silencesOf(small: SmallBoard): readonly Silence[] {
  return (small.silences ?? []).map(({ rule, bars }, index) => ({
    id: silenceId(`q${index}`),
    rule,
    bars: bars.map(barNumbered),
    reason: "we like it so",
  }));
}

function meterOf(small: SmallBoard): Board["meter"] {
  return small.meter ?? commonTime;
}

function gripOf(text: string, setup: Setup): Grip {
  const read = parseGrip(text, setup);
  assert(read.ok, `no grip: ${text}`);
  return read.value;
}
