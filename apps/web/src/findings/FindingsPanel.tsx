/** Every finding in reading order, with its count by severity, and those the players live with. */
import "./FindingsPanel.css";
import { severities } from "@halflap/checker/finding";
import { createMemo, For, Show } from "solid-js";
import { useDesk } from "../board/desk.ts";
import { findingsWords, severityCount, severityWords } from "../words/findings.ts";
import { FindingGroupView } from "./FindingGroupView.tsx";
import { FindingSteps } from "./FindingSteps.tsx";
import { countBySeverity } from "./reading-order.ts";
import { SeverityMark } from "./SeverityMark.tsx";
import { SilencedList } from "./SilencedList.tsx";

/** Quiet when there is nothing to say. */
export function FindingsPanel() {
  const desk = useDesk();
  return (
    <section class="findings" id="findings" aria-label={findingsWords.heading}>
      <header class="findings-head">
        <h2 class="heading">{findingsWords.heading}</h2>
        <Show when={desk.allStanding().length > 0}>
          <div class="findings-ways">
            <FindingSteps />
          </div>
        </Show>
      </header>
      <Show when={desk.allStanding().length > 0} fallback={<NothingToSay />}>
        <SeverityCounts />
        <ol class="finding-groups">
          <For each={desk.groups()}>
            {(group, index) => (
              <FindingGroupView
                group={group}
                isFirstOfSection={group.section !== desk.groups()[index() - 1]?.section}
              />
            )}
          </For>
        </ol>
      </Show>
      <SilencedList />
    </section>
  );
}

/** Each count shows or hides its severity, here and in the seam. */
function SeverityCounts() {
  const desk = useDesk();
  const counts = createMemo(() => countBySeverity(desk.allStanding()));
  return (
    <ul class="severity-counts small">
      <For each={severities}>
        {(severity) => (
          <Show when={counts()[severity] > 0}>
            <li>
              <button
                type="button"
                class="severity-toggle"
                aria-pressed={!desk.isHidden(severity)}
                title={severityWords[severity].meaning}
                onClick={() => desk.toggle(severity)}
              >
                <SeverityMark severity={severity} />
                {severityCount(severity, counts()[severity])}
              </button>
            </li>
          </Show>
        )}
      </For>
    </ul>
  );
}

/** A joint that closes flush, and what it would take to say more. */
function NothingToSay() {
  const desk = useDesk();
  const hasBoth = () => {
    const { upper, lower } = desk.session.board.lanes;
    return upper.grips.size > 0 && lower.grips.size > 0;
  };
  return (
    <div class="nothing-to-say">
      <svg viewBox="0 0 120 44" aria-hidden="true">
        <path class="joint-upper" d="M2 4 H118 V22 H2 Z" />
        <path class="joint-lower" d="M10 24 H110 A8 8 0 0 1 110 40 H10 A8 8 0 0 1 10 24 Z" />
      </svg>
      <p class="strong">{hasBoth() ? findingsWords.none : findingsWords.noneYet}</p>
      <p class="small soft">{hasBoth() ? findingsWords.noneMore : findingsWords.emptyBoard}</p>
    </div>
  );
}
