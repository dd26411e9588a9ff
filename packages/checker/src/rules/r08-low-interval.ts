/** R08: two low notes lie so close together that they turn to mud. */
import { type LaneId, laneIds } from "@halflap/board/board";
import { type MidiNote, midiNote, pitchClass, semitones } from "@halflap/theory/units";
import { type Severity, severities } from "../finding.ts";
import { forgetsCapo } from "../forgotten-capo.ts";
import { type Hit, notesOf } from "../hit.ts";
import { lowIntervalDeficit } from "../low-interval-limits.ts";
import type { Segment } from "../segments.ts";
import type { Limits } from "../thresholds.ts";
import { soundingChord, type Tune } from "../tune.ts";
import { listed, pitchWord } from "../words.ts";

/** Two notes below the limit of their interval; the lower may be a root that is only heard. */
export type Muddy = {
  readonly low: MidiNote;
  readonly high: MidiNote;
  readonly isRootAssumed: boolean;
  readonly deficit: number;
  readonly threshold: number;
  readonly severity: Severity;
};

/** What decides how bad mud is. */
export type MudFrame = Pick<Tune, "limits" | "hasBass" | "distorted">;

/** A sounding pitch and the lanes that have it. */
type Placed = { readonly pitch: MidiNote; readonly lanes: readonly LaneId[] };

/** One hit a slot over all pairs that lie too low; its words name the gravest ones. */
export function mud(segment: Segment, tune: Tune): readonly Hit[] {
  const lanes = laneIds.filter((lane) => !forgetsCapo(segment, tune, lane));
  const placed = placedIn(segment, lanes);
  const all = [...muddyPairs(placed, tune), ...underRoot(placed, segment, tune)].sort(
    (a, b) => gravity(a.severity) - gravity(b.severity) || b.deficit - a.deficit || a.low - b.low,
  );
  const [worst] = all;
  if (worst === undefined) return [];
  const pitches = new Set(all.flatMap(({ low, high }) => [low, high]));
  const notes = lanes.flatMap((lane) => notesOf(segment, lane, (pitch) => pitches.has(pitch)));
  return [
    {
      rule: "R08",
      severity: worst.severity,
      lanes: laneIds.filter((lane) => notes.some((note) => note.lane === lane)),
      segments: [segment],
      notes,
      measured: worst.deficit,
      threshold: worst.threshold,
      words: wordsFor(all, segment, tune),
    },
  ];
}

function placedIn(segment: Segment, lanes: readonly LaneId[]): readonly Placed[] {
  const pitches = new Set(lanes.flatMap((lane) => segment[lane] ?? []));
  return [...pitches]
    .sort((a, b) => a - b)
    .map((pitch) => ({ pitch, lanes: lanes.filter((lane) => segment[lane]?.includes(pitch)) }));
}

function muddyPairs(placed: readonly Placed[], tune: Tune): readonly Muddy[] {
  return placed.flatMap((low, index) =>
    placed.slice(index + 1).flatMap((high) => {
      const isAcross = low.lanes.some((lane) => high.lanes.some((other) => other !== lane));
      return muddyPair(low.pitch, high.pitch, isAcross, tune);
    }),
  );
}

/**
 * The lowest note over the bass note below it, which a bass plays or the ear supplies: a look at
 * most, for nobody knows its octave.
 */
function underRoot([lowest]: readonly Placed[], segment: Segment, tune: Tune): readonly Muddy[] {
  const chord = soundingChord(segment);
  if (chord === undefined || lowest === undefined) return [];
  const root = tune.hasBass ? chord.bassClass : chord.rootClass;
  const distance = pitchClass(lowest.pitch - root);
  // Of a slash chord's own bass the ear supplies no other below it.
  const isAsked = pitchClass(lowest.pitch) === chord.bassClass;
  if (isAsked || distance === 0 || distance > lowest.pitch) return [];
  const below = midiNote(lowest.pitch - distance);
  return muddyPair(below, lowest.pitch, false, tune).map((pair) => ({
    ...pair,
    isRootAssumed: true,
    severity: pair.severity === "fix" ? "look" : pair.severity,
  }));
}

/** Two notes, where they lie too close for their height; across the parts it is graver. */
export function muddyPair(
  low: MidiNote,
  high: MidiNote,
  isAcross: boolean,
  tune: MudFrame,
): readonly Muddy[] {
  const deficit = lowIntervalDeficit(tune.limits.mudTable, low, semitones(high - low)) ?? 0;
  const level = levelOf(deficit, isAcross && tune.hasBass, tune.limits);
  if (level === undefined) return [];
  const shift = (tune.hasBass ? 0 : 1) - (tune.distorted ? 1 : 0);
  const severity = severities[Math.max(gravity("fix"), gravity(level.severity) + shift)];
  if (severity === undefined) return [];
  return [{ low, high, isRootAssumed: false, deficit, threshold: level.threshold, severity }];
}

type Level = { readonly severity: Severity; readonly threshold: number };

function levelOf(deficit: number, isCrowd: boolean, limits: Limits): Level | undefined {
  const { mudNote, mudLook, mudFix } = limits;
  if (deficit < mudNote) return undefined;
  if (isCrowd) return { severity: "fix", threshold: mudNote };
  if (deficit >= mudFix) return { severity: "fix", threshold: mudFix };
  if (deficit >= mudLook) return { severity: "look", threshold: mudLook };
  return { severity: "note", threshold: mudNote };
}

function gravity(severity: Severity): number {
  return severities.indexOf(severity);
}

/** The gravest pairs, three at most. */
function wordsFor(all: readonly Muddy[], segment: Segment, tune: Tune): string {
  const chord = soundingChord(segment);
  const word = (pitch: MidiNote) => pitchWord(pitch, chord, tune.key);
  const [first, ...more] = all.filter(({ severity }) => severity === all[0]?.severity).slice(0, 3);
  if (first === undefined) return "";
  const mud = "lie too close together that far down: it turns to mud";
  if (first.isRootAssumed) {
    const root = tune.hasBass ? `the bass's ${word(first.low)}` : `its root, ${word(first.low)}`;
    return `${word(first.high)} is too low over ${root}: it turns to mud.`;
  }
  const rest = more.filter(({ isRootAssumed }) => !isRootAssumed);
  const also = rest.map(({ low, high }) => `${word(low)} and ${word(high)}`);
  const names = `${word(first.low)} and ${word(first.high)}`;
  return also.length > 0 ? `${names} ${mud}; so do ${listed(also)}.` : `${names} ${mud}.`;
}
