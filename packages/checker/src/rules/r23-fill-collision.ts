/** R23: both parts fill at once. */
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
import type { PassageRule } from "../hit.ts";
import { exceeds } from "../thresholds.ts";
import { listed, sentence } from "../words.ts";

type Collision = Stretch & { readonly upper: Figure; readonly lower: Figure };

/** A hit wherever both lanes fill for longer than a hand-over takes, unless they mean to. */
export const fillCollision: PassageRule = (passage, tune) => {
  const lowerFills = fillsOf(passage, "lower");
  const collisions = fillsOf(passage, "upper").flatMap((upper) =>
    lowerFills.flatMap((lower): readonly Collision[] => {
      const shared = meeting(upper, lower);
      const isAgreed = upper.fill.together || lower.fill.together;
      return shared === undefined || isAgreed ? [] : [{ ...shared, upper, lower }];
    }),
  );
  const long = collisions.filter(({ start, end }) =>
    exceeds((end - start) / tune.beat, tune.limits.fillOverlap),
  );
  return longestByStart(long).map((collision) => {
    const beats = (collision.end - collision.start) / tune.beat;
    const players = sentence(listed([tune.players.upper, tune.players.lower]));
    return {
      rule: "R23",
      severity: "fix",
      lanes: ["upper", "lower"],
      segments: segmentsUnder(passage, collision),
      span: { start: collision.start, end: collision.end },
      notes: [
        ...namedNotes(passage, collision.upper, collision),
        ...namedNotes(passage, collision.lower, collision),
      ],
      measured: beats,
      threshold: tune.limits.fillOverlap,
      words: `${players} both fill here for ${beatWords(beats)}: give it to one of you.`,
    };
  });
};
