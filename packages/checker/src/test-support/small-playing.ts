/** What the lanes of a small board play besides grips: strum patterns, fills, loudness. */
import type { BarId, Board, Lane, LaneId } from "@halflap/board/board";
import { barId, fillId, strumId } from "@halflap/board/ids";
import { barLengthOf, beatOf } from "@halflap/board/meter";
import type { Dynamic, Fill, FillNote, Strum } from "@halflap/board/playing";
import { parseStrumText, stepFor } from "@halflap/board/strum-text";
import { stringNumbers } from "@halflap/theory/tuning";
import { assert, fret, ticks } from "@halflap/theory/units";

/** Something for each lane, where there is something. */
export type ByLane<T> = Partial<Readonly<Record<LaneId, T>>>;

/** A fill by bar number and `beat` from 1; each of its notes with its beats from the start. */
export type SmallFill = Partial<Pick<Fill, "kind" | "together">> & {
  readonly bar: number;
  readonly beat: number;
  readonly beats: number;
  /** "2:10" is string 2, fret 10. */
  readonly notes?: readonly (readonly [beats: number, place: string, more?: Partial<FillNote>])[];
};

/** What is played, by lane and bar number. */
export type SmallPlaying = {
  /** "D.DU.UDU", as many steps as fill a bar; for the whole lane, or by bar number. */
  readonly strums?: ByLane<string | Readonly<Record<number, string>>>;
  readonly strumFeel?: Strum["feel"];
  readonly palmMutes?: ByLane<readonly number[]>;
  readonly letRings?: ByLane<readonly number[]>;
  readonly dynamics?: ByLane<Readonly<Record<number, Dynamic>>>;
  readonly fills?: ByLane<readonly SmallFill[]>;
};

type Meter = Board["meter"];

/** What a lane of a small board plays, as a lane holds it. */
export function playingOf(id: LaneId, small: SmallPlaying, meter: Meter) {
  const fills = (small.fills?.[id] ?? []).map((fill, index) =>
    fillOf(meter, fill, `${id}${index}`),
  );
  return {
    ...strummingOf(small.strums?.[id], small.strumFeel ?? "board", meter),
    fills: new Map(fills.map((fill) => [fill.id, fill])),
    dynamics: new Map(
      Object.entries(small.dynamics?.[id] ?? {}).map(([bar, loud]) => [
        barNumbered(Number(bar)),
        loud,
      ]),
    ),
    palmMutes: new Set(small.palmMutes?.[id]?.map(barNumbered)),
    letRings: new Set(small.letRings?.[id]?.map(barNumbered)),
  } satisfies Partial<Lane>;
}

/** The id of a bar by its number. */
export function barNumbered(number: number): BarId {
  return barId(`b${number}`);
}

function strummingOf(
  given: string | Readonly<Record<number, string>> | undefined,
  feel: Strum["feel"],
  meter: Meter,
): Pick<Lane, "strums" | "strumming"> {
  const whole = typeof given === "string" ? strumOf(given, feel, meter) : undefined;
  const byBar = typeof given === "object" ? Object.entries(given) : [];
  const bars = byBar.map(
    ([bar, text]) => [barNumbered(Number(bar)), strumOf(text, feel, meter)] as const,
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
function strumOf(text: string, feel: Strum["feel"], meter: Meter): Strum {
  const steps = parseStrumText(text);
  assert(steps.ok, `no strum pattern: ${text}`);
  const step = stepFor(barLengthOf(meter), steps.value.length);
  assert(step !== undefined, `no steps that fill a bar: ${text}`);
  return {
    id: strumId(`p${[...text].map((sign) => sign.charCodeAt(0)).join("-")}`.slice(0, 64)),
    name: text,
    step,
    feel,
    palmMute: false,
    steps: steps.value,
  };
}

function fillOf(meter: Meter, fill: SmallFill, id: string): Fill {
  const beat = beatOf(meter);
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
