/** For those who want it: the rule behind a finding, what it measured, and its limit. */
import type { Finding } from "@halflap/checker/finding";
import { findingsWords } from "../words/findings.ts";
import { ruleNames } from "../words/rules.ts";
import { measureOf } from "./measure.ts";

/** Folded under one word. */
export function FindingMeasure(props: { readonly finding: Finding }) {
  const measure = () => measureOf(props.finding);
  return (
    <details class="small soft">
      <summary>{findingsWords.details}</summary>
      {findingsWords.rule(props.finding.rule, ruleNames[props.finding.rule])}:{" "}
      {findingsWords.measured(measure().measured, measure().from)}
    </details>
  );
}
