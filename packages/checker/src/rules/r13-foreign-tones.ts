/** R13: a grip does not spell the chord of the chart. */
import { type LaneId, laneIds } from "@halflap/board/board";
import type { SoundingChord } from "@halflap/theory/chord";
import { pretty } from "@halflap/theory/display";
import { nameInKey } from "@halflap/theory/key";
import { type MidiNote, type PitchClass, pitchClass } from "@halflap/theory/units";
import { chordSpelled } from "../foreign.ts";
import { isThird } from "../guide-tones.ts";
import { type Hit, notesOf, type PassageRule } from "../hit.ts";
import { judgedIn, pedalsOf } from "../pedal.ts";
import type { Segment } from "../segments.ts";
import type { Limits } from "../thresholds.ts";
import { soundingChord, type Tune } from "../tune.ts";
import { listed, noteWord, sentence } from "../words.ts";
import { isLong } from "./r10-rub.ts";

/**
 * Each lane for itself: tones outside the chord are a look, another chord a stop. Pedals, and
 * chords that only pass, may be foreign.
 */
export const foreignTones: PassageRule = ({ segments }, tune) => {
  const hits: Hit[] = [];
  for (const lane of laneIds) {
    const pedals = pedalsOf(segments, lane);
    for (const [place, segment] of segments.entries()) {
      if (judgedIn(segment)[lane].foreign.length === 0) continue;
      hits.push(...inLane(segment, tune, lane, pedals[place] ?? []));
    }
  }
  return hits;
};

type Remembered = {
  readonly limits: Limits;
  readonly blueNotes: boolean;
  readonly pedals: string;
  readonly hits: readonly Hit[];
};

const known = {
  upper: new WeakMap<Segment, Remembered>(),
  lower: new WeakMap<Segment, Remembered>(),
};

/** Remembered: a frame that changes has limits of its own. */
function inLane(
  segment: Segment,
  tune: Tune,
  lane: LaneId,
  pedals: readonly MidiNote[],
): readonly Hit[] {
  const last = known[lane].get(segment);
  const held = pedals.join();
  const { limits, blueNotes } = tune;
  const isSame = last?.limits === limits && last.blueNotes === blueNotes && last.pedals === held;
  if (isSame) return last.hits;
  const hits = strays(segment, tune, lane, pedals);
  known[lane].set(segment, { limits, blueNotes, pedals: held, hits });
  return hits;
}

function strays(
  segment: Segment,
  tune: Tune,
  lane: LaneId,
  pedals: readonly MidiNote[],
): readonly Hit[] {
  const chord = soundingChord(segment);
  const isPassing = !isLong(segment.slot.length, tune.limits);
  if (chord === undefined || isPassing) return [];
  const pitches = segment[lane] ?? [];
  const judged = judgedIn(segment)[lane];
  const blue = tune.blueNotes ? blueThird(chord) : undefined;
  const loose = judged.foreign
    .filter((pitch) => !pedals.includes(pitch))
    .map(pitchClass)
    .filter((value) => value !== blue);
  const foreign = judged.foreignClasses.filter((value) => loose.includes(value));
  if (foreign.length === 0 || foreign.length < tune.limits.foreign) return [];
  const { key } = tune;
  const isOther = foreign.length >= tune.limits.foreignOtherChord;
  const spelled = isOther ? chordSpelled(pitches, (root) => nameInKey(root, key)) : undefined;
  const isStop = spelled !== undefined || (isOther && isContradicted(pitches, foreign, chord));
  const names = listed(foreign.map((value) => noteWord(value, chord, key)));
  return [
    {
      rule: "R13",
      severity: isStop ? "stop" : "look",
      lanes: [lane],
      segments: [segment],
      notes: notesOf(segment, lane, (pitch) => foreign.includes(pitchClass(pitch))),
      measured: foreign.length,
      threshold: isStop ? tune.limits.foreignOtherChord : tune.limits.foreign,
      words: isStop
        ? otherChord(tune, lane, chord, spelled, names)
        : strayTones(tune, lane, chord, names, foreign.length),
    },
  ];
}

/** The minor third over a major one, which a band may mean so. */
function blueThird(chord: SoundingChord): PitchClass | undefined {
  const isMajor = chord.tones.some(({ degree }) => degree === "3");
  return isMajor ? pitchClass(chord.rootClass + 3) : undefined;
}

/** The root is replaced by a neighbour and the third by the other third. */
function isContradicted(
  pitches: readonly MidiNote[],
  foreign: readonly PitchClass[],
  chord: SoundingChord,
): boolean {
  const sounding = new Set(pitches.map(pitchClass));
  const third = chord.tones.find(isThird);
  if (third === undefined || sounding.has(third.pitchClass) || sounding.has(chord.rootClass)) {
    return false;
  }
  const otherThird = pitchClass(third.pitchClass + (third.degree === "3" ? -1 : 1));
  const besideRoot = [pitchClass(chord.rootClass + 1), pitchClass(chord.rootClass - 1)];
  return foreign.includes(otherThird) && besideRoot.some((value) => foreign.includes(value));
}

function strayTones(
  tune: Tune,
  lane: LaneId,
  chord: SoundingChord,
  names: string,
  count: number,
): string {
  const are = count > 1 ? "are" : "is";
  return `${sentence(tune.players[lane])}'s ${names} ${are} not in ${pretty(chord.symbol)}.`;
}

function otherChord(
  tune: Tune,
  lane: LaneId,
  chord: SoundingChord,
  spelled: string | undefined,
  names: string,
): string {
  const player = sentence(tune.players[lane]);
  const wanted = pretty(chord.symbol);
  const { capo } = tune.setups[lane];
  const lifted = capo > 0 ? ` with the capo on ${capo}` : "";
  if (spelled === undefined) {
    return `${player}'s ${names} contradict root and 3rd of ${wanted}${lifted}.`;
  }
  return `${player}'s grip sounds ${pretty(spelled)}${lifted}; the chart says ${wanted}.`;
}
