/** Several things to say about one lane and stretch, as one finding: the gravest first. */
import { type FindingNote, type MeasureUnit, type Severity, severities } from "./finding.ts";
import type { Hit } from "./hit.ts";
import type { Segment } from "./segments.ts";
import type { CheckedPassage } from "./tune.ts";
import { sentence } from "./words.ts";

/** One thing to say, in words that can stand between semicolons. */
export type Reason = {
  readonly severity: Severity;
  readonly segments: readonly Segment[];
  readonly notes: readonly FindingNote[];
  readonly measured: number;
  readonly threshold: number;
  /** Where it is not the usual one of the rule. */
  readonly unit?: MeasureUnit;
  readonly words: string;
};

/** The hit that gives all reasons; it counts and measures as the gravest. None without reasons. */
export function hitOfReasons(
  { segments }: CheckedPassage,
  { rule, lanes }: Pick<Hit, "rule" | "lanes">,
  reasons: readonly Reason[],
): readonly Hit[] {
  const ordered = [...reasons].sort((a, b) => gravity(a) - gravity(b));
  const [gravest] = ordered;
  if (gravest === undefined) return [];
  const meant = new Set(reasons.flatMap((reason) => reason.segments));
  return [
    {
      rule,
      lanes,
      severity: gravest.severity,
      segments: segments.filter((segment) => meant.has(segment)),
      notes: ordered.flatMap(({ notes }) => notes),
      measured: gravest.measured,
      threshold: gravest.threshold,
      unit: gravest.unit,
      words: `${sentence(ordered.map(({ words }) => words).join("; "))}.`,
    },
  ];
}

function gravity({ severity }: Reason): number {
  return severities.indexOf(severity);
}
