/**
 * The lines that move inside a run of grips: found, and named as players name them. SPEC.md T44.
 */
import { threadsBetween } from "./threads.ts";
import type { MidiNote } from "./units.ts";

/** The pitches of one slot, in any order; empty where nobody plays. */
export type Voicing = readonly MidiNote[];

/** Where a line runs: on top, at the bottom, or between. */
export type LineVoice = "top" | "bass" | "inner";

/** A voice that goes one way by steps. */
export type MovingLine = {
  readonly voice: LineVoice;
  /** The first and the last slot of the run that carry it, from 0. */
  readonly from: number;
  readonly to: number;
  /** Chromatic goes by semitones only, stepwise by semitones and whole steps. */
  readonly kind: "chromatic" | "stepwise";
  readonly direction: "up" | "down";
  /** In order, each once, although it may be held over a slot. */
  readonly notes: readonly MidiNote[];
};

/** A line has at least so many notes: two are a step. Our own. */
export const lineNotesMin = 3;

/** A note of a line may be held for one slot besides its own; then the line is over. Our own. */
const heldSlotsMax = 1;
const wholeStep = 2;

/** From a pitch to those its voice may go to in the next slot. */
type Ways = ReadonlyMap<MidiNote, readonly MidiNote[]>;

/** A pitch in a slot on the way of a line. */
type Place = { readonly slot: number; readonly pitch: MidiNote };

/**
 * Every line of the run, those that begin first coming first, top before bass before inner. Top and
 * bass are the highest and the lowest pitch of each slot; inner voices go as their threads go and
 * never become an outer one. A rest ends every line.
 */
export function movingLines(run: readonly Voicing[]): readonly MovingLine[] {
  const tops = run.map((voicing) => outermost(voicing, (pitch, far) => pitch > far));
  const basses = run.map((voicing) => outermost(voicing, (pitch, far) => pitch < far));
  const voices: readonly (readonly [LineVoice, readonly Ways[]])[] = [
    ["top", waysAlong(tops)],
    ["bass", waysAlong(basses.map((pitch, slot) => (pitch === tops[slot] ? undefined : pitch)))],
    ["inner", innerWays(run)],
  ];
  return voices
    .flatMap(([voice, ways]) => [...linesAlong(voice, ways, 1), ...linesAlong(voice, ways, -1)])
    .sort((one, other) => one.from - other.from);
}

/**
 * The line as it is spoken: "chromatic descent in the middle voice, bars 5 to 8". Bars are those of
 * its first and last slot, as the chart numbers them.
 */
export function lineWords(line: MovingLine, firstBar: number, lastBar: number): string {
  const way = line.direction === "up" ? "ascent" : "descent";
  const voice = { top: "top", bass: "lowest", inner: "middle" }[line.voice];
  const bars = firstBar === lastBar ? `bar ${firstBar}` : `bars ${firstBar} to ${lastBar}`;
  return `${line.kind} ${way} in the ${voice} voice, ${bars}`;
}

function outermost(
  voicing: Voicing,
  isFurther: (pitch: MidiNote, far: MidiNote) => boolean,
): MidiNote | undefined {
  return voicing.reduce<MidiNote | undefined>(
    (far, pitch) => (far === undefined || isFurther(pitch, far) ? pitch : far),
    undefined,
  );
}

function waysAlong(voice: readonly (MidiNote | undefined)[]): readonly Ways[] {
  return voice.map((pitch, slot) => {
    const next = voice[slot + 1];
    return new Map(pitch === undefined || next === undefined ? [] : [[pitch, [next]]]);
  });
}

function innerWays(run: readonly Voicing[]): readonly Ways[] {
  return run.map((voicing, slot) => {
    const next = run[slot + 1] ?? [];
    const ways = new Map<MidiNote, MidiNote[]>();
    for (const { from, to } of threadsBetween(voicing, next).pairs) {
      if (!isInner(from, voicing) || !isInner(to, next)) continue;
      ways.set(from, [...(ways.get(from) ?? []), to]);
    }
    return ways;
  });
}

function isInner(pitch: MidiNote, voicing: Voicing): boolean {
  return pitch > Math.min(...voicing) && pitch < Math.max(...voicing);
}

/** The lines of one voice in one direction; each step of the voice belongs to one line only. */
function linesAlong(voice: LineVoice, ways: readonly Ways[], sign: 1 | -1): readonly MovingLine[] {
  const walked = new Set<string>();
  const lines: MovingLine[] = [];
  for (const [slot, pitches] of ways.entries()) {
    for (const pitch of pitches.keys()) {
      if (walked.has(`${slot} ${pitch}`)) continue;
      const places = walk({ slot, pitch }, ways, sign);
      for (const place of places.slice(0, -1)) walked.add(`${place.slot} ${place.pitch}`);
      const line = lineOf(voice, places, sign);
      if (line !== undefined) lines.push(line);
    }
  }
  return lines;
}

/** On from a pitch as long as the voice steps, or holds no longer than it may. */
function walk(start: Place, ways: readonly Ways[], sign: 1 | -1): readonly Place[] {
  const places = [start];
  let held = 0;
  for (let place = start; ; ) {
    const pitch = nextPitch(place.pitch, ways[place.slot]?.get(place.pitch) ?? [], sign, held);
    if (pitch === undefined) return places;
    held = pitch === place.pitch ? held + 1 : 0;
    place = { slot: place.slot + 1, pitch };
    places.push(place);
  }
}

/** The smaller step before the larger, and either before staying. */
function nextPitch(
  from: MidiNote,
  ways: readonly MidiNote[],
  sign: 1 | -1,
  held: number,
): MidiNote | undefined {
  const by = (size: number) => ways.find((to) => to - from === size * sign);
  return by(1) ?? by(wholeStep) ?? (held < heldSlotsMax ? by(0) : undefined);
}

/** The line of a walk, from its first step to its last; undefined when it has too few notes. */
function lineOf(voice: LineVoice, places: readonly Place[], sign: 1 | -1): MovingLine | undefined {
  const waiting = places.filter((place) => place.pitch === places[0]?.pitch).length - 1;
  const ends = places.findIndex((place) => place.pitch === places.at(-1)?.pitch);
  const line = places.slice(waiting, ends + 1);
  const notes = [...new Set(line.map((place) => place.pitch))];
  const [first, last] = [line[0], line.at(-1)];
  if (notes.length < lineNotesMin || first === undefined || last === undefined) return undefined;
  const isChromatic = Math.abs(last.pitch - first.pitch) === notes.length - 1;
  return {
    voice,
    from: first.slot,
    to: last.slot,
    kind: isChromatic ? "chromatic" : "stepwise",
    direction: sign === 1 ? "up" : "down",
    notes,
  };
}
