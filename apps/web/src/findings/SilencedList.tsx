/** The findings that the players live with, why, and the way back. */
import type { Finding } from "@halflap/checker/finding";
import { createMemo, For, Show } from "solid-js";
import { useDesk } from "../board/desk.ts";
import { findingsWords } from "../words/findings.ts";
import { SeverityMark } from "./SeverityMark.tsx";

/** Folded away; nothing while none is silenced. */
export function SilencedList() {
  const desk = useDesk();
  const silenced = createMemo(() =>
    desk.session.findings().filter((finding) => finding.silenced !== undefined),
  );
  const bringBack = (finding: Finding) => desk.session.chart.unsilence(finding.rule, finding.bars);
  return (
    <Show when={silenced().length > 0}>
      <details class="silenced small">
        <summary class="soft">{findingsWords.silenced(silenced().length)}</summary>
        <ul>
          <For each={silenced()}>
            {(finding) => (
              <li class="silenced-entry">
                <SeverityMark severity={finding.severity} />
                <div>
                  <p>{finding.words}</p>
                  <p class="soft">“{finding.silenced}”</p>
                  <Show when={desk.session.mayEditChart()}>
                    <button type="button" class="button small" onClick={() => bringBack(finding)}>
                      {findingsWords.bringBack}
                    </button>
                  </Show>
                </div>
              </li>
            )}
          </For>
        </ul>
      </details>
    </Show>
  );
}
