/** What a finding measured and from where on it is flagged, in words. */
import type { Finding } from "@halflap/checker/finding";

/** "94 %" and "75 %", or "21.64 ms" and "35 ms". */
export function measureOf({
  measured,
  threshold,
  unit,
}: Pick<Finding, "measured" | "threshold" | "unit">): {
  readonly measured: string;
  readonly from: string;
} {
  return { measured: withUnit(measured, unit), from: withUnit(threshold, unit) };
}

/** A value in its unit, with two decimals where they say something; shares in per cent. */
export function withUnit(value: number, unit: string): string {
  if (unit === "share") return `${Math.round(value * 100)} %`;
  const figure = String(Math.round(value * 100) / 100);
  return unit === "" ? figure : `${figure} ${unit}`;
}
