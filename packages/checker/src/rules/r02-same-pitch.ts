/** R02: the same pitches sound in both parts. */
import type { MidiNote } from "@halflap/theory/units";
import type { Severity } from "../finding.ts";
import { type Hit, notesOfBoth } from "../hit.ts";
import { hasAim, isPair, type PairSegment, type Segment } from "../segments.ts";
import { type Limits, reaches } from "../thresholds.ts";
import { soundingChord, type Tune } from "../tune.ts";
import { counted, listed, pitchWord, sentence } from "../words.ts";

/** Counts the pitches that both parts sound and their share of the smaller part. */
export function samePitch(segment: Segment, tune: Tune): readonly Hit[] {
  if (!isPair(segment) || hasAim(segment, "unison")) return [];
  const shared = sharedPitches(segment);
  if (shared.length < tune.limits.unisonNote) return [];
  const smaller = Math.min(new Set(segment.upper).size, new Set(segment.lower).size);
  const share = shared.length / smaller;
  const severity = severityOf(tune.limits, shared.length, share);
  const chord = soundingChord(segment);
  const names = listed(shared.map((pitch) => pitchWord(pitch, chord, tune.key)));
  return [
    {
      rule: "R02",
      severity,
      lanes: ["upper", "lower"],
      segments: [segment],
      notes: notesOfBoth(segment, (pitch) => shared.includes(pitch)),
      ...measureOf(tune.limits, severity, shared.length, share),
      words: wordsFor(severity, shared.length, smaller, names),
    },
  ];
}

/** The pitches that sound in both parts, each once, in ascending order. */
export function sharedPitches(segment: PairSegment): readonly MidiNote[] {
  const lower = new Set(segment.lower);
  return [...new Set(segment.upper)].filter((pitch) => lower.has(pitch));
}

function severityOf(limits: Limits, count: number, share: number): Severity {
  if (count < limits.unisonLook) return "note";
  if (reaches(share, limits.unisonShareFix)) return "fix";
  return reaches(share, limits.unisonShareLook) ? "look" : "note";
}

/** A note counts pitches; a look and a fix go by the share. */
function measureOf(limits: Limits, severity: Severity, count: number, share: number) {
  if (severity === "note")
    return { measured: count, threshold: limits.unisonNote, unit: "notes" } as const;
  const isFix = severity === "fix";
  const threshold = isFix ? limits.unisonShareFix : limits.unisonShareLook;
  return { measured: share, threshold };
}

function wordsFor(severity: Severity, count: number, smaller: number, names: string): string {
  if (severity === "note") return `You both play ${names}.`;
  if (count === smaller) return `One grip is wholly inside the other: you both play ${names}.`;
  return `${sentence(counted(count))} notes are the very same in both parts: ${names}.`;
}
