/**
 * A peg on the large neck with the degree it plays, or its name where the chord has no such
 * degree.
 */
import type { LaneId } from "@halflap/board/board";
import { describeGrip } from "@halflap/theory/describe-grip";
import { pretty } from "@halflap/theory/display";
import type { StringNumber } from "@halflap/theory/grip";
import { createMemo } from "solid-js";
import type { NeckSlot } from "./neck-slot.ts";
import { PegMark } from "./PegMark.tsx";

/** Centred on x, y. */
export function NotePeg(props: {
  readonly lane: LaneId;
  readonly slot: NeckSlot;
  readonly string: StringNumber;
  readonly x: number;
  readonly y: number;
  readonly open: boolean;
  readonly picked: boolean;
}) {
  const label = createMemo(() => {
    const grip = props.slot.grip();
    if (!grip) return "";
    const { notes } = describeGrip(grip, props.slot.setup(), props.slot.chord(), props.slot.key());
    const note = notes.find((each) => each.string === props.string);
    return pretty(note?.degree ?? note?.name ?? "");
  });
  return (
    <g class="note-peg" data-open={props.open ? "" : undefined} data-lane={props.lane}>
      <PegMark
        lane={props.lane}
        x={props.x}
        y={props.y}
        size={22}
        open={props.open}
        picked={props.picked}
      />
      <text x={props.x} y={props.y} aria-hidden="true">
        {label()}
      </text>
    </g>
  );
}
