/** R04: a guide tone sounds in both parts, octaves apart. */
import type { ChordTone, SoundingChord } from "@halflap/theory/chord";
import { pretty } from "@halflap/theory/display";
import { pitchClass } from "@halflap/theory/units";
import { isStaticDegree } from "../function.ts";
import { guideTonesOf } from "../guide-tones.ts";
import { type Hit, notesOfBoth } from "../hit.ts";
import { hasAim, isPair, type PairSegment, type Segment } from "../segments.ts";
import { soundingChord, type Tune } from "../tune.ts";
import { counted, degreeWord, listed } from "../words.ts";

/** A guide tone in both parts on more than one pitch. */
type Doubling = { readonly tone: ChordTone; readonly pitches: number; readonly isLook: boolean };

/** A note for two pitches; a look for three, or when the tone is on top of both parts. */
export function guideToneOctaves(segment: Segment, tune: Tune): readonly Hit[] {
  const chord = soundingChord(segment);
  if (chord === undefined || !isPair(segment) || hasAim(segment, "unison")) return [];
  const all = guideTonesOf(chord)
    .filter((tone) => !isMinorTriadThird(chord, tone))
    .flatMap((tone) => doublingOf(segment, tune, chord, tone));
  if (all.length === 0) return [];
  const looks = all.filter((doubling) => doubling.isLook);
  const meant = looks.length > 0 ? looks : all;
  const tones = new Set(meant.map(({ tone }) => tone.pitchClass));
  const names = meant.map(({ tone }) => `${degreeWord(tone.degree)} (${pretty(tone.name)})`);
  const most = Math.max(...meant.map(({ pitches }) => pitches));
  const isWide = most >= tune.limits.guideTonePitchesLook;
  return [
    {
      rule: "R04",
      severity: looks.length > 0 ? "look" : "note",
      lanes: ["upper", "lower"],
      segments: [segment],
      notes: notesOfBoth(segment, (pitch) => tones.has(pitchClass(pitch))),
      measured: most,
      threshold: isWide ? tune.limits.guideTonePitchesLook : tune.limits.guideTonePitches,
      words: wordsFor(listed(names), looks.length > 0, isWide ? most : undefined),
    },
  ];
}

function doublingOf(
  segment: PairSegment,
  tune: Tune,
  chord: SoundingChord,
  tone: ChordTone,
): readonly Doubling[] {
  const upper = segment.upper.filter((pitch) => pitchClass(pitch) === tone.pitchClass);
  const lower = segment.lower.filter((pitch) => pitchClass(pitch) === tone.pitchClass);
  const pitches = new Set([...upper, ...lower]).size;
  const isInBoth = upper.length > 0 && lower.length > 0;
  if (!isInBoth || pitches < tune.limits.guideTonePitches) return [];
  const isOnTop = upper.at(-1) === segment.upper.at(-1) && lower.at(-1) === segment.lower.at(-1);
  const isColour = tone.degree === "b7" && isStaticDegree(chord, tune.key);
  const isLook = !isColour && (pitches >= tune.limits.guideTonePitchesLook || isOnTop);
  return [{ tone, pitches, isLook }];
}

/** The third of a plain minor triad may be doubled freely. */
export function isMinorTriadThird(chord: SoundingChord, tone: ChordTone): boolean {
  return chord.family === "minor" && tone.degree === "b3" && guideTonesOf(chord).length === 1;
}

function wordsFor(tones: string, isLook: boolean, octaves: number | undefined): string {
  if (!isLook)
    return `You both carry ${tones} in different octaves: one of you could take another note.`;
  if (octaves !== undefined) {
    return `Between you ${tones} sounds in ${counted(octaves)} octaves: thin it out.`;
  }
  return `You both have ${tones} on top.`;
}
