/** Every finding in reading order, with its count by severity, and those the players live with. */
import "./FindingsPanel.css";
import { createMemo, For, Show } from "solid-js";
import { useDesk } from "../board/desk.ts";
import { findingsWords, severityCount, severityWords } from "../words/findings.ts";
import { createDayChange } from "./create-day-change.ts";
import { FindingGroupView } from "./FindingGroupView.tsx";
import { FindingSteps } from "./FindingSteps.tsx";
import { countBySign, signs } from "./reading-order.ts";
import { SettledFinding } from "./SettledFinding.tsx";
import { SeverityMark } from "./SeverityMark.tsx";
import { SilencedList } from "./SilencedList.tsx";

/** Quiet when there is nothing to say; praise alone is not trouble. */
export function FindingsPanel() {
  const desk = useDesk();
  const counts = createMemo(() => countBySign(desk.allStanding()));
  // By bar, which stays what it is: a finding that comes or goes draws none of its neighbours anew.
  const bars = createMemo(() => desk.groups().map(({ bar }) => bar));
  const troubles = () => desk.allStanding().length - counts().lock;
  const dayChange = createDayChange(desk.session, troubles);
  const dayWords = () => {
    const change = dayChange();
    if (change === undefined) return undefined;
    const since = findingsWords[change.since];
    return change.by < 0
      ? findingsWords.fewer(-change.by, since)
      : findingsWords.more(change.by, since);
  };
  return (
    <section class="findings" id="findings" tabindex={-1} aria-label={findingsWords.heading}>
      <header class="findings-head">
        <h2 class="heading">{findingsWords.heading}</h2>
        <Show when={desk.findings().length > 0}>
          <div class="findings-ways">
            <FindingSteps />
          </div>
        </Show>
      </header>
      <Show when={dayWords()}>{(words) => <p class="small soft">{words()}</p>}</Show>
      <Show when={desk.preview()}>
        <p class="small soft">{findingsWords.asItIs}</p>
      </Show>
      <SettledFinding />
      <Show when={desk.session.isChecked()} fallback={<p class="soft">{findingsWords.checking}</p>}>
        <Show when={troubles() === 0}>
          <NothingToSay />
        </Show>
      </Show>
      <Show when={desk.allStanding().length > 0}>
        <SignCounts counts={counts()} />
        <ol class="finding-groups">
          <For each={bars()}>
            {(bar, index) => (
              <Show when={desk.groupIn(bar)}>
                {(group) => (
                  <FindingGroupView
                    group={group()}
                    isFirstOfSection={group().section !== desk.groups()[index() - 1]?.section}
                  />
                )}
              </Show>
            )}
          </For>
        </ol>
      </Show>
      <SilencedList />
    </section>
  );
}

/** Each count shows or hides its findings, here and in the seam. */
function SignCounts(props: { readonly counts: ReturnType<typeof countBySign> }) {
  const desk = useDesk();
  return (
    <ul class="severity-counts small">
      <For each={signs}>
        {(sign) => (
          <Show when={props.counts[sign] > 0}>
            <li>
              <button
                type="button"
                class="severity-toggle"
                aria-pressed={!desk.isHidden(sign)}
                title={severityWords[sign].meaning}
                onClick={() => desk.toggle(sign)}
              >
                <SeverityMark severity={sign} />
                {severityCount(sign, props.counts[sign])}
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
