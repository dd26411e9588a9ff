/** What a way out costs and gives, in words. */
import type { Finding } from "@halflap/checker/finding";
import type { WayOut } from "@halflap/checker/ways-out";
import { severityCount } from "../words/findings.ts";
import { waysWords } from "../words/ways.ts";
import { countBySign, type Sign, signs } from "./reading-order.ts";

/** Difficulty counts in fingers' worth: less than a quarter is not felt, more than one is much. */
const felt = 0.25;
const much = 1;

/** "2 semitones more to move, a little easier to hold"; "" when the hand does as before. */
export function costWords(way: Pick<WayOut, "motion" | "comfort" | "grips">): string {
  if (way.grips.length === 0 && way.motion === 0) return "";
  const motion = Math.round(way.motion);
  const moving =
    motion === 0
      ? waysWords.asFar
      : motion > 0
        ? waysWords.further(motion)
        : waysWords.nearer(-motion);
  return way.grips.length === 0
    ? moving
    : `${moving}, ${waysWords.comfort[comfortOf(way.comfort)]}`;
}

/** "1 stop, 2 fixes", sign by sign. */
export function countsIn(
  findings: readonly Finding[],
): readonly { readonly sign: Sign; readonly words: string }[] {
  const counts = countBySign(findings);
  return signs
    .filter((sign) => counts[sign] > 0)
    .map((sign) => ({ sign, words: severityCount(sign, counts[sign]) }));
}

function comfortOf(comfort: number): keyof typeof waysWords.comfort {
  if (Math.abs(comfort) < felt) return "same";
  if (comfort < 0) return comfort < -much ? "much-easier" : "easier";
  return comfort > much ? "much-harder" : "harder";
}
