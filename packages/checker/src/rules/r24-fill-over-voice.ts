/** R24: a fill sounds under the voice. */
import { laneIds } from "@halflap/board/board";
import type { Sung } from "@halflap/timeline/timeline";
import { beatWords } from "../beat-words.ts";
import {
  type Figure,
  fillsOf,
  longestByStart,
  meeting,
  namedNotes,
  type Stretch,
  segmentsUnder,
} from "../figures.ts";
import type { Hit, PassageRule } from "../hit.ts";
import { totalLength, underVoice } from "../sung.ts";
import { exceeds } from "../thresholds.ts";
import type { CheckedPassage, Tune } from "../tune.ts";
import { sentence } from "../words.ts";

/** A hit for every fill that stays under the voice for longer than the limit. */
export const fillOverVoice: PassageRule = (passage, tune) => {
  const { sung } = passage.passage;
  if (sung.length === 0) return [];
  return laneIds.flatMap((lane) =>
    longestByStart(fillsOf(passage, lane))
      .filter((fill) => isOverVoice(fill, sung, tune))
      .map((fill) => hitOf(passage, fill, tune)),
  );
};

/** Whether a fill is under the voice for longer than the limit, its pick-up not counted. R24. */
export function isOverVoice(figure: Figure, sung: readonly Sung[], tune: Tune): boolean {
  return exceeds(coveredBeats(figure, sung, tune), tune.limits.fillOverVoice);
}

function coveredBeats(figure: Figure, sung: readonly Sung[], tune: Tune): number {
  return totalLength(countedParts(figure, sung, tune)) / tune.beat;
}

/**
 * The parts of a fill that lie under the voice. A pick-up is not counted: it begins under the end
 * of a phrase, no longer than the limit, and goes on in the gap.
 */
function countedParts(figure: Figure, sung: readonly Sung[], tune: Tune): readonly Stretch[] {
  const parts = underVoice(figure, sung);
  const [first, ...rest] = parts;
  if (first === undefined) return [];
  const isPickUp =
    first.start === figure.start &&
    first.end < figure.end &&
    !exceeds((first.end - first.start) / tune.beat, tune.limits.fillOverVoice);
  return isPickUp ? rest : parts;
}

function hitOf(passage: CheckedPassage, figure: Figure, tune: Tune): Hit {
  const { sung } = passage.passage;
  const beats = coveredBeats(figure, sung, tune);
  const isHeld = isUnderHeldNote(figure, sung, tune);
  const player = tune.players[figure.lane];
  return {
    rule: "R24",
    severity: isHeld ? "look" : "fix",
    lanes: [figure.lane],
    segments: segmentsUnder(passage, figure),
    span: { start: figure.start, end: figure.end },
    notes: underVoice(figure, sung).flatMap((part) => namedNotes(passage, figure, part)),
    measured: beats,
    threshold: tune.limits.fillOverVoice,
    words: isHeld
      ? `The voice holds one note over ${player}'s fill: keep the fill small.`
      : `${sentence(player)}'s fill runs ${beatWords(beats)} under the voice: leave it to a gap.`,
  };
}

/** Whether one long sung note lies over all that a fill plays under the voice, as counted. */
function isUnderHeldNote(figure: Figure, sung: readonly Sung[], tune: Tune): boolean {
  const counted = countedParts(figure, sung, tune);
  return sung.every((one) =>
    counted.every((part) => {
      const shared = meeting(one, part);
      if (shared === undefined) return true;
      return one.phrase.melody.some(
        (note) =>
          note.length / tune.beat >= tune.limits.heldNote &&
          one.start + note.start <= shared.start &&
          one.start + note.start + note.length >= shared.end,
      );
    }),
  );
}
