/** Who else stands on a slot: a small tag with the ends of their own lane. */
import "./PresenceTags.css";
import type { LaneId, SlotId } from "@halflap/board/board";
import { createMemo, For } from "solid-js";
import { boardWords } from "../words/board.ts";
import { useDesk } from "./desk.ts";
import { laneOwner } from "./owner.ts";

/** Nothing while nobody else is there. */
export function PresenceTags(props: { readonly lane: LaneId; readonly slot: SlotId }) {
  const desk = useDesk();
  const here = createMemo(() => desk.othersAt(props.lane, props.slot), [], {
    equals: (a, b) => a.length === b.length && a.every((each, at) => each === b[at]),
  });
  const ends = (member: string) =>
    laneOwner(desk.session, "upper")?.id === member
      ? "upper"
      : laneOwner(desk.session, "lower")?.id === member
        ? "lower"
        : undefined;
  return (
    <For each={here()}>
      {(each) => (
        <span class="presence-tag" data-lane={ends(each.member)}>
          <span aria-hidden="true">{each.name}</span>
          <span class="spoken">{boardWords.here(each.name)}</span>
        </span>
      )}
    </For>
  );
}
