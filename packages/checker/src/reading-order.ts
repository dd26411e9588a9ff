/** The order in which a guitarist reads findings. */
import { type Finding, ruleIds, severities } from "./finding.ts";

/** A finding, and where in the chart it begins. */
export type PlacedFinding = { readonly finding: Finding; readonly place: number };

/** By place, then severity, then rule, then lanes. */
export function inReadingOrder(placed: readonly PlacedFinding[]): readonly Finding[] {
  return [...placed].sort(compared).map(({ finding }) => finding);
}

/** How grave: 0 for the gravest. */
export function gravity({ severity }: Pick<Finding, "severity">): number {
  return severities.indexOf(severity);
}

function compared(a: PlacedFinding, b: PlacedFinding): number {
  return (
    a.place - b.place ||
    gravity(a.finding) - gravity(b.finding) ||
    ruleIds.indexOf(a.finding.rule) - ruleIds.indexOf(b.finding.rule) ||
    compare(a.finding.lanes.join(), b.finding.lanes.join()) ||
    compare(a.finding.id, b.finding.id)
  );
}

function compare(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
