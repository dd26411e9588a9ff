/**
 * What begins in one bar: stops, fixes and looks in the open, notes and praise each folded under
 * one line.
 */
import { createEffect, createSignal, Show } from "solid-js";
import { useDesk } from "../board/desk.ts";
import { findingsWords, severityCount } from "../words/findings.ts";
import { FindingEntries } from "./FindingEntries.tsx";
import type { FindingGroup, ReadFinding } from "./reading-order.ts";
import { SeverityMark } from "./SeverityMark.tsx";

/** Nothing for a bar about which nothing is said. */
export function FindingGroupView(props: {
  readonly group: FindingGroup;
  /** Whether its heading names the section too. */
  readonly isFirstOfSection: boolean;
}) {
  return (
    <li class="finding-group">
      <h3 class="finding-place small">
        <Show when={props.isFirstOfSection}>
          <span class="strong">{props.group.section} </span>
        </Show>
        <span class="soft">{findingsWords.bar(props.group.number)}</span>
      </h3>
      <Show when={props.group.plain.length > 0}>
        <FindingEntries read={props.group.plain} />
      </Show>
      <Fold sign="note" read={props.group.notes} bar={props.group.number} />
      <Fold sign="lock" read={props.group.locks} bar={props.group.number} />
    </li>
  );
}

/** Opens by itself for a finding that is picked, in the seam or by a key. */
function Fold(props: {
  readonly sign: "note" | "lock";
  readonly read: readonly ReadFinding[];
  readonly bar: number;
}) {
  const desk = useDesk();
  const [isOpen, setOpen] = createSignal(false);
  const holdsPicked = () => props.read.some(({ finding }) => desk.isPickedFinding(finding.id));
  createEffect(() => {
    if (holdsPicked()) setOpen(true);
  });
  return (
    <Show when={props.read.length > 0}>
      <details
        class="finding-fold"
        open={isOpen()}
        onToggle={(event) => setOpen(event.currentTarget.open)}
      >
        <summary class="small soft">
          <SeverityMark severity={props.sign} />
          {severityCount(props.sign, props.read.length)}
          <span class="spoken">, {findingsWords.bar(props.bar)}</span>
        </summary>
        <FindingEntries read={props.read} />
      </details>
    </Show>
  );
}
