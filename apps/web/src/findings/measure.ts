/** What a finding measured and the limit it crossed, in the unit of that limit. */
import type { Board } from "@halflap/board/board";
import type { Finding } from "@halflap/checker/finding";
import { limitNames, limitsOf, limitTable } from "@halflap/checker/thresholds";

/** "94 %" and "75 %"; a measure whose limit is in no table stays a bare figure. */
export function measureOf(
  finding: Pick<Finding, "rule" | "measured" | "threshold">,
  board: Pick<Board, "limits">,
): { readonly measured: string; readonly from: string } {
  const limits = limitsOf(board);
  const name = limitNames.find(
    (each) => limitTable[each].rule === finding.rule && limits[each] === finding.threshold,
  );
  const unit = name === undefined ? "" : limitTable[name].unit;
  return { measured: withUnit(finding.measured, unit), from: withUnit(finding.threshold, unit) };
}

/** A value in its unit, with two decimals where they say something; shares in per cent. */
export function withUnit(value: number, unit: string): string {
  if (unit === "share") return `${Math.round(value * 100)} %`;
  const figure = String(Math.round(value * 100) / 100);
  return unit === "" ? figure : `${figure} ${unit}`;
}
