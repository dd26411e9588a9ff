/** One finding: its shape, its sentence, and when picked its notes, ways out, and silence. */
import "./FindingEntry.css";
import type { Finding } from "@halflap/checker/finding";
import { createEffect, createSignal, Show } from "solid-js";
import { useDesk } from "../board/desk.ts";
import { showWithin } from "../board/show-within.ts";
import { HearButton } from "../listen/HearButton.tsx";
import { hearWhenPointed, pointedBars } from "../listen/hear-when-pointed.ts";
import { findingsWords, severityWords } from "../words/findings.ts";
import { listenWords } from "../words/listen.ts";
import { FindingMeasure } from "./FindingMeasure.tsx";
import { FindingNotes } from "./FindingNotes.tsx";
import { signOf } from "./reading-order.ts";
import { SeverityMark } from "./SeverityMark.tsx";
import { SilenceForm } from "./SilenceForm.tsx";
import { WaysOut } from "./WaysOut.tsx";

/** Picking it scrolls the board there and marks its notes; picking it again lets go. */
export function FindingEntry(props: {
  readonly finding: Finding;
  /** The number of the last bar it reaches, when that is not the bar it begins in. */
  readonly until: number | undefined;
}) {
  const desk = useDesk();
  const [isSilencing, setSilencing] = createSignal(false);
  const isPicked = () => desk.picked()?.id === props.finding.id;
  const mayBeSilenced = () => desk.session.mayEditChart() && !props.finding.isPraise;
  let entry: HTMLLIElement | undefined;
  createEffect(() => {
    if (isPicked()) queueMicrotask(() => showInList(entry));
    else setSilencing(false);
  });
  const doneSilencing = (isSilenced: boolean) => {
    setSilencing(false);
    if (isSilenced) desk.pick(undefined);
  };
  const pointed = () => {
    const { bars, lanes } = props.finding;
    const pointing = pointedBars(desk.session.board, bars, {
      lane: lanes[0] ?? "upper",
      edits: [],
    });
    return pointing && { ...pointing, needsBoth: lanes.length > 1 };
  };
  const openNeck = () => {
    const place = desk.slotPlace();
    if (place) desk.openNeck(place);
  };
  return (
    <li
      class="finding"
      data-sign={signOf(props.finding)}
      data-picked={isPicked() ? "" : undefined}
      ref={entry}
    >
      <button
        type="button"
        class="finding-words"
        ref={hearWhenPointed(pointed)}
        aria-expanded={isPicked()}
        onClick={() => desk.pick(isPicked() ? undefined : props.finding)}
      >
        <SeverityMark severity={signOf(props.finding)} />
        <span>
          <span class="spoken">{severityWords[signOf(props.finding)].one}: </span>
          {props.finding.words}
          <Show when={props.until}>
            {(bar) => <span class="finding-until small soft"> {findingsWords.until(bar())}</span>}
          </Show>
        </span>
      </button>
      <Show when={isPicked()}>
        <div class="finding-more">
          <FindingNotes finding={props.finding} />
          <WaysOut finding={props.finding} />
          <div class="finding-acts">
            <HearButton
              words={listenWords.hear}
              bars={props.finding.bars}
              lane={props.finding.lanes[0] ?? "upper"}
              edits={[]}
            />
            <button type="button" class="button small" onClick={openNeck}>
              {findingsWords.show}
            </button>
            <Show when={mayBeSilenced() && !isSilencing()}>
              <button type="button" class="button bare small" onClick={() => setSilencing(true)}>
                {findingsWords.silence}
              </button>
            </Show>
          </div>
          <Show when={isSilencing()}>
            <SilenceForm finding={props.finding} onDone={doneSilencing} />
          </Show>
          <FindingMeasure finding={props.finding} />
        </div>
      </Show>
    </li>
  );
}

/** Only where the list scrolls by itself; on a phone it is part of the page, which stays put. */
function showInList(entry: HTMLElement | undefined): void {
  const list = entry?.closest(".board-side");
  if (entry && list && list.scrollHeight > list.clientHeight) showWithin(list, entry);
}
