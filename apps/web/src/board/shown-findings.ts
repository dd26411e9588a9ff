/** What the checker found as the board shows it: what stands, what is hidden, what is picked. */
import type { LaneId, SlotId } from "@halflap/board/board";
import type { Finding } from "@halflap/checker/finding";
import { createMemo, createSelector, createSignal } from "solid-js";
import {
  type FindingGroup,
  groupByBar,
  inOrder,
  locksIn,
  type Sign,
  signOf,
  standing,
} from "../findings/reading-order.ts";
import type { Session } from "../session/session.ts";
import { createKeyed } from "./keyed.ts";
import { createSettled } from "./settled.ts";

/** The findings that stand, those shown, and the one that is picked. */
export function createShownFindings(session: Pick<Session, "board" | "findings">) {
  const [pickedId, setPickedId] = createSignal<string>();
  const [hidden, setHidden] = createSignal<ReadonlySet<Sign>>(new Set());
  const allStanding = createMemo(() => standing(session.findings()));
  const groups = createMemo<readonly FindingGroup[]>(
    (before) =>
      groupByBar(
        allStanding().filter((finding) => !hidden().has(signOf(finding))),
        session.board.sections,
        before,
      ),
    [],
  );
  const findings = createMemo(() => inOrder(groups()));
  const groupIn = createKeyed(() => new Map(groups().map((group) => [group.bar, group] as const)));
  const picked = createSettled(() => session.findings().find((each) => each.id === pickedId()));
  const lastPicked = createMemo<Finding | undefined>((before) =>
    pickedId() === undefined ? undefined : (picked() ?? before),
  );
  const pickedKeys = createMemo(() => new Set(picked()?.notes.map(noteKey)));
  const toggle = (sign: Sign) => {
    const next = new Set(hidden());
    if (!next.delete(sign)) next.add(sign);
    setHidden(next);
  };
  const beside = (by: 1 | -1): Finding | undefined => {
    const all = findings();
    const index = all.findIndex((each) => each.id === pickedId());
    if (index < 0) return by > 0 ? all[0] : all.at(-1);
    return all[(index + by + all.length) % all.length];
  };
  return {
    allStanding,
    /** The shown findings bar by bar, and the same one after another. */
    groups,
    findings,
    /** What begins in a bar, read by bar. */
    groupIn,
    /** Where the parts lock; nothing to step through, only to see. */
    locks: createMemo(() => locksIn(groups())),
    isHidden: (sign: Sign) => hidden().has(sign),
    toggle,
    picked,
    isPickedFinding: createSelector(() => picked()?.id),
    /** The finding that was picked and is gone since, until another is picked. */
    settled: () => (picked() === undefined ? lastPicked() : undefined),
    setPickedId,
    beside,
    /** Whether the picked finding is about this note. */
    isPicked: (lane: LaneId, slot: SlotId, pitch: number) =>
      pickedKeys().has(`${lane}-${slot}-${pitch}`),
  };
}

function noteKey(note: Finding["notes"][number]): string {
  return `${note.lane}-${note.slot}-${note.pitch}`;
}
