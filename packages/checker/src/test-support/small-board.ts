/** Boards of a few bars for tests, written as chords with their grips. */
import type {
  Bar,
  BarAim,
  BarId,
  Board,
  Lane,
  LaneId,
  Section,
  Silence,
  Slot,
} from "@halflap/board/board";
import {
  barId,
  fillId,
  formEntryId,
  gapOwnerId,
  phraseId,
  sectionId,
  silenceId,
  slotId,
  strumId,
  voiceId,
} from "@halflap/board/ids";
import { barLengthOf, beatOf, commonTime } from "@halflap/board/meter";
import type { Dynamic, Fill, FillNote, Strum } from "@halflap/board/playing";
import type { GapOwner, Phrase, Voice } from "@halflap/board/singing";
import { parseStrumText, stepFor } from "@halflap/board/strum-text";
import { type Grip, parseGrip } from "@halflap/theory/grip";
import { parseKey } from "@halflap/theory/key";
import { parseChord } from "@halflap/theory/parse-chord";
import { defaultSetup, type Setup, stringNumbers } from "@halflap/theory/tuning";
import { assert, fret, ticks } from "@halflap/theory/units";

/** A chord with the grips of the upper and the lower lane; "-" = no grip. */
export type Played = readonly [chord: string, upper: string, lower: string];
/** The slots of one bar, of equal length. */
export type PlayedBar = readonly Played[];

/** Something for each lane, where there is something. */
type ByLane<T> = Partial<Readonly<Record<LaneId, T>>>;

/** A fill by bar number; `beat` from 1, `beats` how many, notes as [beats from its start, where]. */
export type SmallFill = Partial<Pick<Fill, "kind" | "together">> & {
  readonly bar: number;
  readonly beat: number;
  readonly beats: number;
  /** "2:10" is string 2, fret 10. */
  readonly notes?: readonly (readonly [beats: number, place: string, more?: Partial<FillNote>])[];
};

/** A sung phrase by bar number; `beat` from 1. */
export type SmallPhrase = Partial<Pick<Phrase, "melody">> & {
  readonly bar: number;
  readonly beat: number;
  readonly beats: number;
};

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
  readonly tempo?: number;
  readonly meter?: Board["meter"];
  readonly feel?: Board["feel"];
  readonly aims?: Readonly<Record<number, readonly BarAim[]>>;
  readonly limits?: Readonly<Record<string, number>>;
  /** "D.DU.UDU", as many steps as fill a bar; for the whole lane, or by bar number. */
  readonly strums?: ByLane<string | Readonly<Record<number, string>>>;
  readonly strumFeel?: Strum["feel"];
  readonly palmMutes?: ByLane<readonly number[]>;
  readonly letRings?: ByLane<readonly number[]>;
  readonly dynamics?: ByLane<Readonly<Record<number, Dynamic>>>;
  readonly fills?: ByLane<readonly SmallFill[]>;
  readonly phrases?: readonly SmallPhrase[];
  /** Who sings every pass; nobody said unless given. */
  readonly voice?: Omit<Voice, "id" | "name">;
  readonly gapOwners?: readonly (Pick<GapOwner, "owner"> & {
    readonly bar: number;
    readonly beat: number;
  })[];
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
    phrases: phrasesOf(small),
    gapOwners: gapOwnersOf(small),
    aims: new Map(
      Object.entries(small.aims ?? {}).map(([bar, aims]) => [barNumbered(Number(bar)), aims]),
    ),
    limits: new Map(Object.entries(small.limits ?? {})),
    proposals: [],
    lanes: { upper: laneOf("upper", small), lower: laneOf("lower", small) },
    members: small.players ?? [],
    setAside: { bars: [], texts: new Map(), slots: [] },
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
  const fills = (small.fills?.[id] ?? []).map((fill, index) =>
    fillOf(small, fill, `${id}${index}`),
  );
  return {
    id,
    owner: small.players?.[id === "upper" ? 0 : 1]?.id,
    setup,
    grips: new Map(grips),
    layOuts: new Set(small.layOuts?.[id]?.map(barNumbered)),
    marks: new Map(),
    chosenFor: new Map(),
    ...strummingOf(id, small),
    fills: new Map(fills.map((fill) => [fill.id, fill])),
    dynamics: new Map(
      Object.entries(small.dynamics?.[id] ?? {}).map(([bar, loud]) => [
        barNumbered(Number(bar)),
        loud,
      ]),
    ),
    palmMutes: new Set(small.palmMutes?.[id]?.map(barNumbered)),
    letRings: new Set(small.letRings?.[id]?.map(barNumbered)),
    restingPasses: new Set(),
    ...own,
  };
}

function strummingOf(id: LaneId, small: SmallBoard): Pick<Lane, "strums" | "strumming"> {
  const given = small.strums?.[id];
  const whole = typeof given === "string" ? strumOf(small, given) : undefined;
  const byBar = typeof given === "object" ? Object.entries(given) : [];
  const bars = byBar.map(
    ([bar, text]) => [barNumbered(Number(bar)), strumOf(small, text)] as const,
  );
  const all = [...(whole ? [whole] : []), ...bars.map(([, strum]) => strum)];
  return {
    strums: new Map(all.map((strum) => [strum.id, strum])),
    strumming: {
      lane: whole?.id,
      sections: new Map(),
      bars: new Map(bars.map(([bar, strum]) => [bar, strum.id])),
      passes: new Map(),
    },
  };
}

/** A pattern named by its own text, one bar long. */
function strumOf(small: SmallBoard, text: string): Strum {
  const steps = parseStrumText(text);
  assert(steps.ok, `no strum pattern: ${text}`);
  const step = stepFor(barLengthOf(meterOf(small)), steps.value.length);
  assert(step !== undefined, `no steps that fill a bar: ${text}`);
  return {
    id: strumId(`p${[...text].map((sign) => sign.charCodeAt(0)).join("-")}`.slice(0, 64)),
    name: text,
    step,
    feel: small.strumFeel ?? "board",
    palmMute: false,
    steps: steps.value,
  };
}

function fillOf(small: SmallBoard, fill: SmallFill, id: string): Fill {
  const beat = beatOf(meterOf(small));
  const notes = (fill.notes ?? []).map(([beats, place, more]): FillNote => {
    const [string, typed] = place.split(":").map(Number);
    const found = stringNumbers.find((number) => number === string);
    assert(found !== undefined && typed !== undefined, `no string and fret: ${place}`);
    return {
      start: ticks(beats * beat),
      length: ticks(beat / 2),
      string: found,
      fret: fret(typed),
      way: "pluck",
      bend: 0,
      letRing: false,
      ...more,
    };
  });
  return {
    id: fillId(id),
    bar: barNumbered(fill.bar),
    start: ticks((fill.beat - 1) * beat),
    length: ticks(fill.beats * beat),
    kind: fill.kind ?? "fill",
    together: fill.together ?? false,
    notes,
  };
}

function phrasesOf(small: SmallBoard): readonly Phrase[] {
  return (small.phrases ?? []).map(({ bar, beat, beats, melody }, index) => ({
    id: phraseId(`phrase${index}`),
    bar: barNumbered(bar),
    start: ticks((beat - 1) * beatOf(meterOf(small))),
    length: ticks(beats * beatOf(meterOf(small))),
    melody: melody ?? [],
  }));
}

function gapOwnersOf(small: SmallBoard): readonly GapOwner[] {
  return (small.gapOwners ?? []).map(({ bar, beat, owner }, index) => ({
    id: gapOwnerId(`gap${index}`),
    bar: barNumbered(bar),
    at: ticks((beat - 1) * beatOf(meterOf(small))),
    owner,
  }));
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

function barNumbered(number: number): BarId {
  return barId(`b${number}`);
}

function gripOf(text: string, setup: Setup): Grip {
  const read = parseGrip(text, setup);
  assert(read.ok, `no grip: ${text}`);
  return read.value;
}
