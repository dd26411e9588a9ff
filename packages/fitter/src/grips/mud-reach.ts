/** How far down a grip makes mud with other notes: R08's own words, as sets of pitches. */
import type { Severity } from "@halflap/checker/finding";
import { type MudFrame, muddyPair } from "@halflap/checker/mud";
import { type MidiNote, midiNote } from "@halflap/theory/units";
import { joined, noPitches, type PitchSet, pitchSet } from "./pitch-set.ts";

/** What a grip's notes are too near to, each severity with the pitches of the other part. */
export type MudReach = {
  readonly fix: PitchSet;
  readonly look: PitchSet;
  readonly note: PitchSet;
  /** The gravest between its own notes: 0 nothing, 1 note, 2 look, 3 fix. */
  readonly own: number;
  /** Its lowest note; above everything where it does not count. */
  readonly lowest: number;
};

/** A grip whose notes do not count. */
export const noMud: MudReach = {
  ...{ fix: noPitches, look: noPitches, note: noPitches },
  own: 0,
  lowest: 128,
};

/** Severities of mud by how grave they are, from nothing up. */
export const mudGrades: readonly (Severity | undefined)[] = [undefined, "note", "look", "fix"];

/** No table limits an interval higher up, nor a wider one. */
const highestLow = 60;
const widest = 16;

type Neighbours = {
  readonly fix: MidiNote[];
  readonly look: MidiNote[];
  readonly note: MidiNote[];
};

/** How grave severities of mud are; a stop is none of them. */
export function mudGrade(severity: Severity | undefined): number {
  return Math.max(0, mudGrades.indexOf(severity));
}

type Teller = (pitches: readonly MidiNote[]) => MudReach;

const tellers = new WeakMap<MudFrame, Teller>();

/** A way to tell what some ascending pitches make mud with. */
export function mudReachOf(frame: MudFrame): Teller {
  const known = tellers.get(frame) ?? tellerFor(frame);
  tellers.set(frame, known);
  return known;
}

function tellerFor(frame: MudFrame): Teller {
  const across = new Map<number, Neighbours>();
  const within = new Map<number, number>();
  for (let low = 0; low <= highestLow; low++) {
    for (let distance = 1; distance <= widest; distance++) {
      const [one, other] = [midiNote(low), midiNote(low + distance)];
      const severity = muddyPair(one, other, true, frame)[0]?.severity;
      if (severity !== undefined && severity !== "stop") {
        neighboursOf(across, low)[severity].push(other);
        neighboursOf(across, other)[severity].push(one);
      }
      const own = mudGrade(muddyPair(one, other, false, frame)[0]?.severity);
      if (own > 0) within.set(pairKey(one, other), own);
    }
  }
  const sets = new Map([...across].map(([pitch, near]) => [pitch, setsOf(near)]));
  return (pitches) => reachOf(pitches, sets, within);
}

type NeighbourSets = Readonly<Record<keyof Neighbours, PitchSet>>;

function setsOf({ fix, look, note }: Neighbours): NeighbourSets {
  return { fix: pitchSet(fix), look: pitchSet(look), note: pitchSet(note) };
}

function reachOf(
  pitches: readonly MidiNote[],
  across: ReadonlyMap<number, NeighbourSets>,
  within: ReadonlyMap<number, number>,
): MudReach {
  const near = (grade: keyof Neighbours) =>
    joined(pitches.map((pitch) => across.get(pitch)?.[grade] ?? noPitches));
  let own = 0;
  for (let place = 0; place < pitches.length; place++) {
    const low = pitches[place] ?? 0;
    if (low > highestLow) break;
    for (let above = place + 1; above < pitches.length; above++) {
      own = Math.max(own, within.get(pairKey(low, pitches[above] ?? 0)) ?? 0);
    }
  }
  const [lowest] = pitches;
  const sets = { fix: near("fix"), look: near("look"), note: near("note") };
  return { ...sets, own, lowest: lowest ?? noMud.lowest };
}

function neighboursOf(all: Map<number, Neighbours>, pitch: number): Neighbours {
  const known = all.get(pitch) ?? { fix: [], look: [], note: [] };
  all.set(pitch, known);
  return known;
}

function pairKey(low: number, high: number): number {
  return low * 128 + high;
}
