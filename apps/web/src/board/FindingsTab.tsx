/** On a phone, the way from the chart down to the findings: how many there are of each severity. */
import { severities } from "@halflap/checker/finding";
import { createMemo, For, Show } from "solid-js";
import { countBySeverity } from "../findings/reading-order.ts";
import { SeverityMark } from "../findings/SeverityMark.tsx";
import { findingsWords, severityCount } from "../words/findings.ts";
import { useDesk } from "./desk.ts";

/** Hidden where the findings stand beside the board; nothing while there are none. */
export function FindingsTab() {
  const desk = useDesk();
  const counts = createMemo(() => countBySeverity(desk.findings()));
  const jump = () =>
    document.getElementById("findings")?.scrollIntoView({ behavior: "smooth", block: "start" });
  return (
    <Show when={desk.findings().length > 0 && !desk.isNeckOpen()}>
      <button type="button" class="findings-tab small" onClick={jump}>
        <span class="strong">{findingsWords.heading}</span>
        <For each={severities}>
          {(severity) => (
            <Show when={counts()[severity] > 0}>
              <span class="findings-tab-count">
                <SeverityMark severity={severity} />
                <span aria-hidden="true">{counts()[severity]}</span>
                <span class="spoken">{severityCount(severity, counts()[severity])}</span>
              </span>
            </Show>
          )}
        </For>
      </button>
    </Show>
  );
}
