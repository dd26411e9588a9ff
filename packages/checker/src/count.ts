/** How many findings of each severity stand. */
import { type Finding, type Severity, severities } from "./finding.ts";

/** Troubles by severity; praise and what is silenced count nowhere else. */
export type FindingCount = Readonly<Record<Severity | "praise" | "silenced", number>>;

/** The count of a list of findings. */
export function countBySeverity(findings: readonly Finding[]): FindingCount {
  const standing = findings.filter((finding) => finding.silenced === undefined);
  const of = (severity: Severity) =>
    standing.filter((finding) => finding.severity === severity && !finding.isPraise).length;
  const [stop, fix, look, note] = severities.map(of);
  return {
    stop: stop ?? 0,
    fix: fix ?? 0,
    look: look ?? 0,
    note: note ?? 0,
    praise: standing.filter((finding) => finding.isPraise).length,
    silenced: findings.length - standing.length,
  };
}

/** Whether a stop or a fix stands that nobody silenced: the parts do not fit yet. */
export function isBlocked(findings: readonly Finding[]): boolean {
  return findings.some(
    ({ severity, silenced }) =>
      silenced === undefined && (severity === "stop" || severity === "fix"),
  );
}
