/**
 * On a phone, the line at the bottom: how many findings there are and the way to them, or the one
 * that is picked, so that it is read beside its bars.
 */
import "./FindingsTab.css";
import type { Finding } from "@halflap/checker/finding";
import { createMemo, For, Show } from "solid-js";
import { FindingSteps } from "../findings/FindingSteps.tsx";
import { countBySign, signOf, signs } from "../findings/reading-order.ts";
import { SeverityMark } from "../findings/SeverityMark.tsx";
import { boardWords } from "../words/board.ts";
import { findingsWords, severityCount, severityWords } from "../words/findings.ts";
import { useDesk } from "./desk.ts";

/** Hidden where the findings stand beside the board; nothing while there are none. */
export function FindingsTab() {
  const desk = useDesk();
  return (
    <Show when={desk.findings().length > 0 && !desk.isNeckOpen()}>
      <Show when={desk.picked()} fallback={<Counts />}>
        {(finding) => <Picked finding={finding()} />}
      </Show>
    </Show>
  );
}

function Counts() {
  const desk = useDesk();
  const counts = createMemo(() => countBySign([...desk.findings(), ...desk.locks()]));
  const jump = () => document.getElementById("findings")?.scrollIntoView({ block: "start" });
  return (
    <button type="button" class="findings-tab small" onClick={jump}>
      <span class="strong">{findingsWords.heading}</span>
      <For each={signs}>
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
  );
}

function Picked(props: { readonly finding: Finding }) {
  const desk = useDesk();
  const openNeck = () => {
    const place = desk.slotPlace();
    if (place) desk.openNeck(place);
  };
  const showWays = () =>
    document.querySelector(".finding[data-picked]")?.scrollIntoView({ block: "start" });
  return (
    <section class="findings-tab small" aria-label={findingsWords.picked}>
      <SeverityMark severity={signOf(props.finding)} />
      <p class="findings-tab-words">
        <span class="spoken">{severityWords[signOf(props.finding)].one}: </span>
        {props.finding.words}
      </p>
      <div class="findings-tab-ways">
        <Show
          when={props.finding.severity !== "note"}
          fallback={
            <button type="button" class="button small" onClick={openNeck}>
              {findingsWords.show}
            </button>
          }
        >
          <button type="button" class="button small" onClick={showWays}>
            {findingsWords.ways}
          </button>
        </Show>
        <FindingSteps />
        <button type="button" class="button bare small" onClick={() => desk.pick(undefined)}>
          {boardWords.close}
        </button>
      </div>
    </section>
  );
}
