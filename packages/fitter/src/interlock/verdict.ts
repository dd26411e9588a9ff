/** Whether the checker has anything against a pattern where it would be played. */
import type { Board } from "@halflap/board/board";
import type { Strum } from "@halflap/board/playing";
import { makeChecker } from "@halflap/checker/check";
import { type Finding, type RuleId, severities } from "@halflap/checker/finding";
import type { Ground } from "./ground.ts";
import { type Place, withPattern } from "./trial.ts";

/** A pattern that is offered has none of these. */
const spotless: readonly RuleId[] = ["R18", "R19", "R20", "R21", "R22"];

/**
 * It makes none of these graver either: strokes crowd a voice, keep a singer busy, and set the time
 * for a move. What rules say of grips is theirs, though a stroke may bring it to light.
 */
const noWorse: readonly RuleId[] = ["R27", "R28", "R29"];

/**
 * Judges patterns for a section: no rule about rhythm speaks of the lane in a bar where the pattern
 * is all that plays, and nothing gets graver in any bar. What was silenced does not count.
 */
export function makeVerdict(
  board: Board,
  place: Place,
  ground: Ground,
): (pattern: Omit<Strum, "id">) => boolean {
  const checker = makeChecker();
  const before = gravest(checker(board));
  const own = new Set([...ground.barIds].filter((bar) => !ground.mixed.has(bar)));
  return (pattern) => {
    const findings = checker(withPattern(board, place, pattern), "try");
    const isSpotted = findings.some(
      (finding) =>
        isStanding(finding) &&
        spotless.includes(finding.rule) &&
        finding.lanes.includes(place.lane) &&
        finding.bars.some((bar) => own.has(bar)),
    );
    if (isSpotted) return false;
    return [...gravest(findings)].every(([key, rank]) => rank <= (before.get(key) ?? 0));
  };
}

/** By rule and bar, how grave the gravest finding is that counts; higher is graver. */
function gravest(findings: readonly Finding[]): ReadonlyMap<string, number> {
  const ranks = new Map<string, number>();
  for (const finding of findings) {
    if (!isStanding(finding)) continue;
    const { rule, severity, bars } = finding;
    if (!spotless.includes(rule) && !noWorse.includes(rule)) continue;
    const rank = severities.length - severities.indexOf(severity);
    for (const bar of bars) {
      const key = `${rule} ${bar}`;
      ranks.set(key, Math.max(rank, ranks.get(key) ?? 0));
    }
  }
  return ranks;
}

function isStanding({ isPraise, silenced }: Finding): boolean {
  return !isPraise && silenced === undefined;
}
