/**
 * Findings grouped for reading: by section and bar in chart order, the gravest first within a bar.
 */
import type { BarId, Section } from "@halflap/board/board";
import { type Finding, type Severity, severities } from "@halflap/checker/finding";

/** What a finding is drawn and counted as: praise is no trouble, whatever its severity. */
export type Sign = Severity | "lock";

/** All signs, the gravest first, praise last. */
export const signs: readonly Sign[] = [...severities, "lock"];

/** The sign of a finding. */
export function signOf(finding: Pick<Finding, "severity" | "isPraise">): Sign {
  return finding.isPraise ? "lock" : finding.severity;
}

/** A finding, and the last bar it reaches when that is not the bar it begins in. */
export type ReadFinding = { readonly finding: Finding; readonly until: number | undefined };

/** What begins in one bar. */
export type FindingGroup = {
  readonly bar: BarId;
  readonly number: number;
  readonly section: string;
  /** What is always open: stops, fixes and looks, the gravest first. */
  readonly plain: readonly ReadFinding[];
  /** What is good to know, read after the rest and only when wanted. */
  readonly notes: readonly ReadFinding[];
  /** Where the parts lock. */
  readonly locks: readonly ReadFinding[];
};

/** The findings that still stand, in the order in which they are read. */
export function standing(findings: readonly Finding[]): readonly Finding[] {
  return findings.filter((finding) => finding.silenced === undefined);
}

/**
 * Groups of findings that begin in the same bar; a finding in no known bar is left out. A group
 * that reads as it did in `previous` is that very object.
 */
export function groupByBar(
  findings: readonly Finding[],
  sections: readonly Section[],
  previous: readonly FindingGroup[] = [],
): readonly FindingGroup[] {
  const known = new Map(previous.map((group) => [group.bar, group]));
  const numbers = new Map(
    sections.flatMap((section) => section.bars.map((bar) => [bar.id, bar.number] as const)),
  );
  const byBar = new Map<BarId, Finding[]>();
  for (const finding of findings) {
    const [bar] = finding.bars;
    const here = bar && byBar.get(bar);
    if (here !== undefined) here.push(finding);
    else if (bar !== undefined) byBar.set(bar, [finding]);
  }
  return sections.flatMap((section) =>
    section.bars.flatMap((bar) => {
      const here = byBar.get(bar.id)?.sort(byGravity);
      if (here === undefined) return [];
      const read = here.map((finding): ReadFinding => {
        const until = finding.bars.reduce(
          (last, each) => numbers.get(each) ?? last,
          numbers.get(bar.id),
        );
        return { finding, until: until === bar.number ? undefined : until };
      });
      const group = {
        bar: bar.id,
        number: bar.number,
        section: section.name,
        plain: read.filter(({ finding }) => !isFolded(signOf(finding))),
        notes: read.filter(({ finding }) => signOf(finding) === "note"),
        locks: read.filter(({ finding }) => signOf(finding) === "lock"),
      };
      return [sharedWith(known.get(bar.id), group)];
    }),
  );
}

/** Whether findings of a sign are read after the rest and only when wanted. */
function isFolded(sign: Sign): boolean {
  return sign === "note" || sign === "lock";
}

/** What is amiss in the groups, one after another, as a reader meets it; praise is left out. */
export function inOrder(groups: readonly FindingGroup[]): readonly Finding[] {
  return groups.flatMap(({ plain, notes }) => [...plain, ...notes].map(({ finding }) => finding));
}

/** Where the groups say that the parts lock. */
export function locksIn(groups: readonly FindingGroup[]): readonly Finding[] {
  return groups.flatMap(({ locks }) => locks.map(({ finding }) => finding));
}

/** The first to be read of the gravest kind there is; undefined when nothing was found. */
export function gravestOf(inOrder: readonly Finding[]): Finding | undefined {
  return severities.flatMap(
    (severity) => inOrder.find((each) => each.severity === severity) ?? [],
  )[0];
}

/** How many findings there are of each sign. */
export function countBySign(findings: readonly Finding[]): Readonly<Record<Sign, number>> {
  const count = { stop: 0, fix: 0, look: 0, note: 0, lock: 0 };
  for (const finding of findings) count[signOf(finding)] += 1;
  return count;
}

/** The gravest first; of one severity the longest first, for the rest often follows from it. */
function byGravity(a: Finding, b: Finding): number {
  const graver = severities.indexOf(a.severity) - severities.indexOf(b.severity);
  return graver || b.bars.length - a.bars.length;
}

/** Keeps what reads the same, so that a page repaints only the bar that changed. */
function sharedWith(before: FindingGroup | undefined, next: FindingGroup): FindingGroup {
  if (!before) return next;
  const plain = sameReading(before.plain, next.plain);
  const notes = sameReading(before.notes, next.notes);
  const locks = sameReading(before.locks, next.locks);
  const isSame =
    plain === before.plain &&
    notes === before.notes &&
    locks === before.locks &&
    before.number === next.number &&
    before.section === next.section;
  return isSame ? before : { ...next, plain, notes, locks };
}

function sameReading(
  before: readonly ReadFinding[],
  next: readonly ReadFinding[],
): readonly ReadFinding[] {
  const shared = next.map(
    (each) =>
      before.find((old) => old.finding === each.finding && old.until === each.until) ?? each,
  );
  const isSame =
    shared.length === before.length && shared.every((each, index) => each === before[index]);
  return isSame ? before : shared;
}
