/** One finding: its shape and its sentence, and when picked all the rest. */
import "./FindingEntry.css";
import type { Finding } from "@halflap/checker/finding";
import { Show } from "solid-js";
import { lazyPart } from "../app/lazy-part.tsx";
import { useDesk } from "../board/desk.ts";
import { showWithin } from "../board/show-within.ts";
import { hearWhenPointed, pointedBars } from "../listen/hear-when-pointed.ts";
import { findingsWords, severityWords } from "../words/findings.ts";
import { signOf } from "./reading-order.ts";
import { SeverityMark } from "./SeverityMark.tsx";

const FindingMore = lazyPart(async () => (await import("./FindingMore.tsx")).FindingMore);

/** Picking it scrolls the board there and marks its notes; picking it again lets go. */
export function FindingEntry(props: {
  readonly finding: Finding;
  /** The number of the last bar it reaches, when that is not the bar it begins in. */
  readonly until: number | undefined;
}) {
  const desk = useDesk();
  const isPicked = () => desk.isPickedFinding(props.finding.id);
  let entry: HTMLLIElement | undefined;
  const pointed = () => {
    const { bars, lanes } = props.finding;
    const pointing = pointedBars(desk.session.board, bars, {
      lane: lanes[0] ?? "upper",
      edits: [],
    });
    return pointing && { ...pointing, needsBoth: lanes.length > 1 };
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
        <FindingMore finding={props.finding} onShown={() => showInList(entry)} />
      </Show>
    </li>
  );
}

/** Only where the list scrolls by itself; on a phone it is part of the page, which stays put. */
function showInList(entry: HTMLElement | undefined): void {
  const list = entry?.closest(".board-side");
  if (entry && list && list.scrollHeight > list.clientHeight) showWithin(list, entry);
}
