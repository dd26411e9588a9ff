/** R12: the roughest sounds of the tune. */
import { laneIds } from "@halflap/board/board";
import { remembered } from "@halflap/board/remembered";
import type { MidiNote } from "@halflap/theory/units";
import { forgetsCapo } from "../forgotten-capo.ts";
import { type BoardRule, type Hit, notesOfBoth } from "../hit.ts";
import { roughnessBetween, roughnessOf } from "../roughness.ts";
import { isPair, type PairSegment, type Segment } from "../segments.ts";
import { exceeds } from "../thresholds.ts";
import { type CheckedPassage, type Frame, soundingChord, type Tune } from "../tune.ts";
import { pitchWord } from "../words.ts";
import { mud } from "./r08-low-interval.ts";
import { rub } from "./r10-rub.ts";

/**
 * A note for each slot in which both play that is rougher, by a factor, than the middle one of all
 * such slots. Where mud, a rub or a forgotten capo is told already, that is the reason.
 */
export const roughness: BoardRule = ({ passages, tune, frame }) => {
  const pairs = passages.flatMap(pairsIn);
  const bySlot = new Map(pairs.map(({ segment, rough }) => [segment.slot.id, rough]));
  const usual = median([...bySlot.values()]);
  return pairs
    .filter(({ rough }) => exceeds(rough, usual * tune.limits.roughness))
    .filter(({ segment }) => !isExplained(segment, tune, frame))
    .flatMap((pair) => hitOf(pair, tune, usual));
};

type Pair = { readonly segment: PairSegment; readonly rough: number };

/** The slots of a passage in which both play. */
const pairsIn = remembered(({ segments }: CheckedPassage): readonly Pair[] =>
  segments.filter(isPair).map((segment) => ({ segment, rough: roughnessIn(segment) })),
);

function hitOf({ segment, rough }: Pair, tune: Tune, usual: number): readonly Hit[] {
  const worst = roughestPair(segment);
  if (worst === undefined) return [];
  const chord = soundingChord(segment);
  const [low, high] = [...worst]
    .sort((a, b) => a - b)
    .map((pitch) => pitchWord(pitch, chord, tune.key));
  return [
    {
      rule: "R12",
      severity: "note",
      lanes: laneIds,
      segments: [segment],
      notes: notesOfBoth(segment, (pitch) => worst.includes(pitch)),
      measured: rough / usual,
      threshold: tune.limits.roughness,
      words: `This is far rougher than the rest of the tune, most of all ${low} against ${high}.`,
    },
  ];
}

const roughnessIn = remembered(({ upper, lower }: PairSegment) =>
  roughnessOf([...lower, ...upper]),
);

const explained = new WeakMap<Segment, { readonly frame: Frame; readonly is: boolean }>();

function isExplained(segment: Segment, tune: Tune, frame: Frame): boolean {
  const known = explained.get(segment);
  if (known?.frame === frame) return known.is;
  const is =
    laneIds.some((lane) => forgetsCapo(segment, tune, lane)) ||
    mud(segment, tune).length > 0 ||
    rub(segment, tune).length > 0;
  explained.set(segment, { frame, is });
  return is;
}

/** The note of each lane between which most of the roughness arises. */
function roughestPair(segment: PairSegment): readonly MidiNote[] | undefined {
  const pairs = segment.lower.flatMap((low) =>
    segment.upper.map((high) => ({ notes: [low, high], rough: roughnessBetween(low, high) })),
  );
  return pairs.sort((a, b) => b.rough - a.rough)[0]?.notes;
}

/** The middle value; of an even number of them, the mean of the two in the middle. */
function median(values: readonly number[]): number {
  const sorted = Float64Array.from(values).sort();
  const middle = (sorted.length - 1) / 2;
  return ((sorted[Math.floor(middle)] ?? 0) + (sorted[Math.ceil(middle)] ?? 0)) / 2;
}
