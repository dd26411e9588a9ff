/** R07: nobody plays the tone that makes the chord. */
import { type LaneId, laneIds } from "@halflap/board/board";
import type { ChordTone, SoundingChord } from "@halflap/theory/chord";
import { pretty } from "@halflap/theory/display";
import { type MidiNote, pitchClass } from "@halflap/theory/units";
import type { Severity } from "../finding.ts";
import { isSecondaryDominant } from "../function.ts";
import { guideTonesOf, isThird } from "../guide-tones.ts";
import { type Hit, notesOfBoth } from "../hit.ts";
import { isPair, type Segment } from "../segments.ts";
import { nextRoots, soundingChord, type Tune } from "../tune.ts";
import { degreeWord, listed } from "../words.ts";

/** A third or seventh that no grip, fill or notated bass sounds, once it is known who plays. */
export function missingGuideTone(segment: Segment, tune: Tune): readonly Hit[] {
  const chord = soundingChord(segment);
  if (chord === undefined || chord.family === "suspended" || chord.family === "power") return [];
  if (!isPair(segment) && !isAlone(segment, tune)) return [];
  const sounding = new Set(laneIds.flatMap((lane) => playedIn(segment, lane)).map(pitchClass));
  if (tune.hasBass) sounding.add(chord.bassClass);
  const missing = guideTonesOf(chord).filter((tone) => !sounding.has(tone.pitchClass));
  if (missing.length === 0 || missing.length < tune.limits.missing) return [];
  return [
    {
      rule: "R07",
      severity: severityOf(missing, segment, tune, chord),
      lanes: laneIds.filter((lane) => segment[lane] !== undefined),
      segments: [segment],
      notes: notesOfBoth(segment),
      measured: missing.length,
      threshold: tune.limits.missing,
      words: wordsFor(missing, chord),
    },
  ];
}

/** The pitches of the lane's grip and of the fills and lines in the slot. */
function playedIn(segment: Segment, lane: LaneId): readonly MidiNote[] {
  return [...(segment[lane] ?? []), ...segment.figures[lane]];
}

/** Whether one guitar plays, the other rests by design, and no bass helps out. */
function isAlone(segment: Segment, tune: Tune): boolean {
  const rests = (lane: LaneId) => segment.rests[lane];
  const plays = laneIds.some((lane) => segment[lane] !== undefined);
  return plays && laneIds.some(rests) && !tune.hasBass;
}

function severityOf(
  missing: readonly ChordTone[],
  segment: Segment,
  tune: Tune,
  chord: SoundingChord,
): Severity {
  if (missing.some(isThird)) return "fix";
  const isSecondary = nextRoots(tune, segment, chord).some((next) =>
    isSecondaryDominant(chord, next.chord, tune.key),
  );
  return isSecondary ? "fix" : "look";
}

function wordsFor(missing: readonly ChordTone[], chord: SoundingChord): string {
  const symbol = pretty(chord.symbol);
  const [first] = missing;
  const name = listed(missing.map((tone) => pretty(tone.name))).replace(" and ", " or ");
  const triad = triadUnder(chord);
  if (missing.length > 1 || first === undefined) {
    return `Nobody plays ${name}, so nothing makes it ${symbol}.`;
  }
  if (isThird(first))
    return `Nobody plays ${name}, so nobody hears whether ${symbol} is major or minor.`;
  if (triad !== undefined) return `Nobody plays ${name}, so ${symbol} is just ${pretty(triad)}.`;
  return `Nobody plays ${name}, ${degreeWord(first.degree)} of ${symbol}.`;
}

/** What is left of a plain four-note chord without its 7th or 6th, where that has a simple name. */
function triadUnder(chord: SoundingChord): string | undefined {
  const hasPlainFifth = chord.tones.some((tone) => tone.degree === "5");
  if (chord.tones.length !== 4 || !hasPlainFifth || chord.bass !== chord.root) return undefined;
  return chord.tones.some((tone) => tone.degree === "b3") ? `${chord.root}m` : chord.root;
}
