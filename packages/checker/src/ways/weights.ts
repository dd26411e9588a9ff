/** How much findings weigh, and what became of them from one check to another. */
import type { Finding, Severity } from "../finding.ts";

/** One stop outweighs five fixes, a fix five looks: our own. */
export const weights: Readonly<Record<Severity, number>> = { stop: 100, fix: 20, look: 4, note: 1 };

/** Whether it counts: praise is welcome, and what is silenced has been agreed. */
export function isStanding(finding: Finding): boolean {
  return finding.silenced === undefined && !finding.isPraise;
}

/** R12 compares with the rest of the tune: whatever clears one place makes others look rough. */
function isCounted(finding: Finding): boolean {
  return isStanding(finding) && finding.rule !== "R12";
}

/** What all standing findings weigh together. */
export function totalOf(findings: readonly Finding[]): number {
  return findings.reduce(
    (sum, finding) => sum + (isCounted(finding) ? weights[finding.severity] : 0),
    0,
  );
}

/** Standing findings that a change takes away and brings. */
export type Difference = {
  readonly removes: readonly Finding[];
  readonly causes: readonly Finding[];
};

/** A trouble that goes on in some of its bars is the same trouble, as long as it is as grave. */
export function differenceOf(before: readonly Finding[], after: readonly Finding[]): Difference {
  return { removes: missingFrom(after, before), causes: missingFrom(before, after) };
}

/** Whether the same rule says as much or worse where the finding is. */
export function stands(finding: Finding, after: readonly Finding[]): boolean {
  return after.some(
    (other) =>
      isStanding(other) &&
      isSameTrouble(finding, other) &&
      weights[other.severity] >= weights[finding.severity],
  );
}

function missingFrom(there: readonly Finding[], here: readonly Finding[]): readonly Finding[] {
  const same = new Set(there);
  const byRule = new Map<string, Finding[]>();
  for (const finding of there) {
    if (!isCounted(finding)) continue;
    const key = keyOf(finding);
    const group = byRule.get(key);
    if (group === undefined) byRule.set(key, [finding]);
    else group.push(finding);
  }
  return here.filter(
    (finding) =>
      isCounted(finding) &&
      !same.has(finding) &&
      !(byRule.get(keyOf(finding)) ?? []).some((other) => isSameTrouble(finding, other)),
  );
}

function keyOf(finding: Finding): string {
  return `${finding.rule}|${finding.severity}`;
}

/** The same rule about the same lanes at the same time. */
function isSameTrouble(one: Finding, other: Finding): boolean {
  return (
    one.rule === other.rule &&
    one.lanes.length === other.lanes.length &&
    one.lanes.every((lane, index) => lane === other.lanes[index]) &&
    one.spans.some((span) =>
      other.spans.some(
        ({ bar, start, end }) =>
          bar === span.bar &&
          (start === span.start || Math.max(start, span.start) < Math.min(end, span.end)),
      ),
    )
  );
}
