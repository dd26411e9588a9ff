/** Leanings in a player's words: what each changes in the table of weights. */
import type { LeaningName } from "../answer.ts";
import { type WeightName, type Weights, weightNames, weightTable } from "./weights.ts";

/** A leaning: a sentence for the player, and the weights it sets differently. */
export type Leaning = {
  readonly words: string;
  readonly changes: Readonly<Partial<Record<WeightName, number>>>;
};

/** All leanings by name; the values are ours. */
export const leanings: Readonly<Record<LeaningName, Leaning>> = {
  plain: {
    words: "Little motion, easy grips, each out of the other's way.",
    changes: {},
  },
  "close together": {
    words: "The two parts lie next to each other, like one big guitar.",
    changes: { wide: 0.5 },
  },
  "more movement on top": {
    words: "The high part's top note moves from chord to chord, the rest holds still.",
    changes: { topMotion: 0, topHeld: 3 },
  },
  "easy for the singer": {
    words: "Whoever sings changes grips seldom, stays where the hand is and holds easy grips.",
    changes: { sungChange: 4, sungEffort: 1 },
  },
  "far apart": {
    words: "One part low, the other high, with room between them.",
    changes: { narrow: 0.5 },
  },
};

/** The table of weights under a leaning. */
export function weightsFor(leaning: LeaningName): Weights {
  const values = weightNames.map((name) => {
    return [name, leanings[leaning].changes[name] ?? weightTable[name].value];
  });
  return Object.fromEntries(values);
}
