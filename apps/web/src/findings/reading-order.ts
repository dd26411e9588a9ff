/**
 * Findings grouped for reading: by section and bar in chart order, the gravest first within a bar.
 */
import type { BarId, Section } from "@halflap/board/board";
import { type Finding, type Severity, severities } from "@halflap/checker/finding";

export type FindingGroup = {
  readonly key: string;
  readonly section: string;
  /** The first and last bar it spans, by number. */
  readonly firstBar: number;
  readonly lastBar: number;
  readonly findings: readonly Finding[];
};

/** The findings that still stand, in the order in which they are read. */
export function standing(findings: readonly Finding[]): readonly Finding[] {
  return findings.filter((finding) => finding.silenced === undefined);
}

/** Groups of findings that begin in the same bar; a finding in no known bar is left out. */
export function groupByBar(
  findings: readonly Finding[],
  sections: readonly Section[],
): readonly FindingGroup[] {
  const places = placesOf(sections);
  const groups = new Map<string, FindingGroup & { readonly findings: Finding[] }>();
  for (const finding of findings) {
    const spans = finding.bars.flatMap((bar) => places.get(bar) ?? []);
    const first = spans[0];
    const last = spans.at(-1);
    if (!first || !last) continue;
    const key = `${first.number}-${last.number}`;
    const group = groups.get(key);
    if (group) group.findings.push(finding);
    else {
      groups.set(key, {
        key,
        section: first.section,
        firstBar: first.number,
        lastBar: last.number,
        findings: [finding],
      });
    }
  }
  const ordered = [...groups.values()].sort(
    (a, b) => a.firstBar - b.firstBar || a.lastBar - b.lastBar,
  );
  for (const group of ordered) group.findings.sort((a, b) => rank(a) - rank(b));
  return ordered;
}

/** How many findings there are of each severity. */
export function countBySeverity(findings: readonly Finding[]): Readonly<Record<Severity, number>> {
  const count = { stop: 0, fix: 0, look: 0, note: 0 };
  for (const finding of findings) count[finding.severity] += 1;
  return count;
}

type Spot = { readonly number: number; readonly section: string };

function placesOf(sections: readonly Section[]): ReadonlyMap<BarId, Spot> {
  return new Map(
    sections.flatMap((section) =>
      section.bars.map((bar) => [bar.id, { number: bar.number, section: section.name }] as const),
    ),
  );
}

function rank(finding: Finding): number {
  return severities.indexOf(finding.severity);
}
