/** What begins in one bar: stops, fixes and looks in the open, notes folded under one line. */
import { createEffect, createSignal, For, Show } from "solid-js";
import { useDesk } from "../board/desk.ts";
import { findingsWords, severityCount } from "../words/findings.ts";
import { FindingEntry } from "./FindingEntry.tsx";
import type { FindingGroup } from "./reading-order.ts";
import { SeverityMark } from "./SeverityMark.tsx";

/** The fold opens by itself for a note that is picked, in the seam or by a key. */
export function FindingGroupView(props: {
  readonly group: FindingGroup;
  /** Whether its heading names the section too. */
  readonly isFirstOfSection: boolean;
}) {
  const desk = useDesk();
  const [isOpen, setOpen] = createSignal(false);
  const holdsPicked = () =>
    props.group.notes.some(({ finding }) => finding.id === desk.picked()?.id);
  createEffect(() => {
    if (holdsPicked()) setOpen(true);
  });
  return (
    <li>
      <h3 class="finding-place small">
        <Show when={props.isFirstOfSection}>
          <span class="strong">{props.group.section} </span>
        </Show>
        <span class="soft">{findingsWords.bar(props.group.number)}</span>
      </h3>
      <Show when={props.group.plain.length > 0}>
        <ol>
          <For each={props.group.plain}>{(read) => <FindingEntry {...read} />}</For>
        </ol>
      </Show>
      <Show when={props.group.notes.length > 0}>
        <details
          class="finding-fold"
          open={isOpen()}
          onToggle={(event) => setOpen(event.currentTarget.open)}
        >
          <summary class="small soft">
            <SeverityMark severity="note" />
            {severityCount("note", props.group.notes.length)}
            <span class="spoken">, {findingsWords.bar(props.group.number)}</span>
          </summary>
          <ol>
            <For each={props.group.notes}>{(read) => <FindingEntry {...read} />}</For>
          </ol>
        </details>
      </Show>
    </li>
  );
}
