/** R15: both parts move in octaves or unison. */
import type { LaneId } from "@halflap/board/board";
import type { MidiNote } from "@halflap/theory/units";
import { barsAhead } from "../bar-by-bar.ts";
import { type FindingNote, type Severity, severities } from "../finding.ts";
import { isLinked, movesFrom } from "../hand-moves.ts";
import type { Hit, PassageRule } from "../hit.ts";
import { hasAim, isPair, type Segment } from "../segments.ts";
import { type Limits, reaches } from "../thresholds.ts";
import type { CheckedBar, CheckedPassage, Tune } from "../tune.ts";
import { counted, sentence } from "../words.ts";

/** A voice of each lane: the lowest or the highest note. */
type Pairing = Readonly<Record<LaneId, "top" | "bottom">>;

const pairings: readonly Pairing[] = [
  { upper: "top", lower: "top" },
  { upper: "bottom", lower: "bottom" },
  { upper: "top", lower: "bottom" },
  { upper: "bottom", lower: "top" },
];
const octave = 12;

/** A slot with the way the parts take out of it. */
type Place = {
  readonly segment: Segment;
  /** Whether both lanes go on from grip to grip, no fill between. */
  readonly goesTo: (next: Segment) => boolean;
};

/** Moves in a row, from one slot of the passage on, and the voices that make them. */
type Run = {
  readonly from: number;
  readonly moves: number;
  readonly isUnison: boolean;
  readonly pairings: readonly Pairing[];
};

/** One hit for each long enough run that lies in no graver one, nor in a longer one as grave. */
export const parallelLanes: PassageRule = (passage, tune) => {
  const places = passage.bars.flatMap((bar, index) =>
    placesOf(bar, barsAhead(passage, index), tune),
  );
  const ways = waysOn(passage, tune);
  const runs = pairings.flatMap((pairing) => runsOf(pairing, places, ways, tune.limits));
  return spoken(alikeAsOne(runs), tune.limits).map((run) => hitOf(run, places, tune));
};

function placesOf(
  bar: CheckedBar,
  ahead: readonly CheckedBar[],
  { setups }: Tune,
): readonly Place[] {
  return bar.segments.map((segment) => ({
    segment,
    goesTo: (next) =>
      isLinked(movesFrom(bar, ahead, "upper", setups), segment, next) &&
      isLinked(movesFrom(bar, ahead, "lower", setups), segment, next),
  }));
}

/** The first bars past the end, each with what comes after it left open. */
function waysOn(passage: CheckedPassage, tune: Tune): readonly (readonly Place[])[] {
  return passage.following.map((bar) => placesOf(bar, [], tune));
}

function runsOf(
  pairing: Pairing,
  places: readonly Place[],
  ways: readonly (readonly Place[])[],
  limits: Limits,
): readonly Run[] {
  const runs: Run[] = [];
  let from = 0;
  while (from < places.length) {
    const here = movesAlong(pairing, places, from);
    const end = from + here;
    const last = places[end];
    const isAtEnd = end === places.length - 1 && last !== undefined;
    const beyond = isAtEnd
      ? Math.max(0, ...ways.map((way) => movesAlong(pairing, [last, ...way], 0)))
      : 0;
    const first = places[from];
    if (first !== undefined && here + beyond >= limits.parallelLook) {
      const isUnison = distance(pairing, first.segment) === 0;
      runs.push({ from, moves: here + beyond, isUnison, pairings: [pairing] });
    }
    from = Math.max(end, from + 1);
  }
  return runs;
}

/** How many moves in octaves are made in a row from one of the places on. */
function movesAlong(pairing: Pairing, places: readonly Place[], from: number): number {
  let here = from;
  for (;;) {
    const [place, next] = [places[here], places[here + 1]];
    if (place === undefined || next === undefined) return here - from;
    if (!isParallel(pairing, place, next)) return here - from;
    here++;
  }
}

function isParallel(pairing: Pairing, place: Place, next: Place): boolean {
  const [one, other] = [place.segment, next.segment];
  const [from, to] = [distance(pairing, one), distance(pairing, other)];
  if (from === undefined || from !== to || from % octave !== 0) return false;
  if (voice(pairing, "upper", one) === voice(pairing, "upper", other)) return false;
  return !hasAim(one, "unison") && !hasAim(other, "unison") && place.goesTo(other);
}

/** From the lower lane's voice up to the upper's; undefined unless both lanes sound. */
function distance(pairing: Pairing, segment: Segment): number | undefined {
  const [upper, lower] = [voice(pairing, "upper", segment), voice(pairing, "lower", segment)];
  return isPair(segment) && upper !== undefined && lower !== undefined ? upper - lower : undefined;
}

function voice(pairing: Pairing, lane: LaneId, segment: Segment): MidiNote | undefined {
  return pairing[lane] === "top" ? segment[lane]?.at(-1) : segment[lane]?.[0];
}

/** Runs through the same chords, in octaves or all in unison, as one run of several voices. */
function alikeAsOne(runs: readonly Run[]): readonly Run[] {
  const alike = new Map<string, Run>();
  for (const run of runs) {
    const key = [run.from, run.moves, run.isUnison].join();
    const known = alike.get(key);
    const pairings = [...(known?.pairings ?? []), ...run.pairings];
    alike.set(key, { ...run, pairings });
  }
  return [...alike.values()];
}

/** The gravest first, then the longest, each unless one before it contains it or lies in it. */
function spoken(runs: readonly Run[], limits: Limits): readonly Run[] {
  const byMove = new Map<number, readonly Run[]>();
  const weightFirst = (a: Run, b: Run) =>
    severities.indexOf(severityOf(a, limits)) - severities.indexOf(severityOf(b, limits)) ||
    b.moves - a.moves ||
    Number(b.isUnison) - Number(a.isUnison);
  const kept = [...runs].sort(weightFirst).filter((run) => {
    const moves = Array.from({ length: run.moves }, (_, index) => run.from + index);
    const beside = moves.flatMap((move) => byMove.get(move) ?? []);
    if (beside.some((other) => contains(run, other) || contains(other, run))) return false;
    for (const move of moves) byMove.set(move, [...(byMove.get(move) ?? []), run]);
    return true;
  });
  return kept.sort((a, b) => a.from - b.from);
}

function contains(outer: Run, inner: Run): boolean {
  return outer.from <= inner.from && inner.from + inner.moves <= outer.from + outer.moves;
}

/** Unison is one level up; nothing about taste is graver than a fix. */
function severityOf({ moves, isUnison }: Run, limits: Limits): Severity {
  return isUnison || reaches(moves, limits.parallelFix) ? "fix" : "look";
}

function hitOf(run: Run, places: readonly Place[], tune: Tune): Hit {
  const { limits, players } = tune;
  const severity = severityOf(run, limits);
  const segments = places.slice(run.from, run.from + run.moves + 1).map(({ segment }) => segment);
  const isLong = reaches(run.moves, limits.parallelFix);
  return {
    rule: "R15",
    severity,
    lanes: ["upper", "lower"],
    segments,
    notes: segments.flatMap((segment) => notesOf(run, segment)),
    measured: run.moves,
    threshold: isLong ? limits.parallelFix : limits.parallelLook,
    words: `${voicesOf(run.pairings, players)} move in ${run.isUnison ? "unison" : "octaves"} \
through ${counted(run.moves + 1)} chords: hold a note in one part, or let it go the other way.`,
  };
}

function notesOf(run: Run, segment: Segment): readonly FindingNote[] {
  return (["upper", "lower"] as const).flatMap((lane) => {
    const pitches = run.pairings.flatMap((pairing) => voice(pairing, lane, segment) ?? []);
    return [...new Set(pitches)].map((pitch) => ({ lane, slot: segment.slot.id, pitch }));
  });
}

function voicesOf(found: readonly Pairing[], players: Tune["players"]): string {
  const [one] = found;
  if (one === undefined || found.length > 1) return "You two";
  if (one.upper === one.lower) return `Your ${one.upper} notes`;
  return `${sentence(players.upper)}'s ${one.upper} and ${players.lower}'s ${one.lower} note`;
}
