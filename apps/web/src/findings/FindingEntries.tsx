/** Findings one after another: what is typed or open in one stays while the board changes. */
import { KeyedFor } from "../board/KeyedFor.tsx";
import { FindingEntry } from "./FindingEntry.tsx";
import type { ReadFinding } from "./reading-order.ts";

/** Each is drawn anew only when it comes or goes. */
export function FindingEntries(props: { readonly read: readonly ReadFinding[] }) {
  return (
    <ol>
      <KeyedFor each={props.read} keyOf={({ finding }) => finding.id}>
        {(read) => <FindingEntry finding={read().finding} until={read().until} />}
      </KeyedFor>
    </ol>
  );
}
