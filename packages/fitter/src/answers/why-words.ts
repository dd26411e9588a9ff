/** What another grip would cost, the other part as it is, in a sentence. */
import { type Grip, printGrip } from "@halflap/theory/grip";
import type { CauseCost } from "../answer.ts";

type Placed = CauseCost & { readonly bar: number };

type More = {
  readonly grip: Grip;
  readonly more: number;
  /** By itself it would even cost less: the answer holds another for the sake of variety. */
  readonly isLess: boolean;
};

/** So many reasons are told. */
const reasonsMax = 2;
/** Less is not worth a word. */
const leastTold = 0.25;

/** "x-x-3-2-1-x would cost 4.5 more: 3 for motion in bar 7, 1.5 for comfort in bar 6." */
export function wordsForMore({ grip, more, isLess }: More, inBars: readonly Placed[]): string {
  const text = printGrip(grip);
  if (isLess) return `${text} would cost less: it is left out so that the answers differ.`;
  if (more === 0) return `${text} would cost no more.`;
  const reasons = [...inBars]
    .filter(({ cost }) => cost >= leastTold)
    .sort((one, other) => other.cost - one.cost || one.bar - other.bar)
    .slice(0, reasonsMax)
    .map(({ cause, cost, bar }) => `${rounded(cost)} for ${cause} in bar ${bar}`);
  const why = reasons.length === 0 ? "" : `: ${reasons.join(", ")}`;
  return `${text} would cost ${rounded(more)} more${why}.`;
}

function rounded(semitones: number): string {
  return String(Math.round(semitones * 100) / 100);
}
