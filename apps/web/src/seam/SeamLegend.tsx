/** How to read the seam and the shapes of the findings. */
import "./SeamLegend.css";
import { For } from "solid-js";
import { signs } from "../findings/reading-order.ts";
import { SeverityMark } from "../findings/SeverityMark.tsx";
import { severityWords } from "../words/findings.ts";
import { seamWords } from "../words/seam.ts";

/** A short list of sentences, each beside what it speaks of. */
export function SeamLegend() {
  return (
    <section class="seam-legend" aria-label={seamWords.legend}>
      <h3 class="strong">{seamWords.legend}</h3>
      <p>{seamWords.legendNotes}</p>
      <p>{seamWords.legendFigures}</p>
      <p>{seamWords.legendOverlap}</p>
      <p>{seamWords.legendDoubled}</p>
      <ul>
        <For each={signs}>
          {(severity) => (
            <li>
              <SeverityMark severity={severity} />
              <span class="strong">{severityWords[severity].one}</span>
              {severityWords[severity].meaning}
            </li>
          )}
        </For>
      </ul>
    </section>
  );
}
