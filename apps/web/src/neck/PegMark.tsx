/** A stopped or open string: a square peg in the upper lane, a round one in the lower. */
import "./PegMark.css";
import type { LaneId } from "@halflap/board/board";

/** Centred on x, y; `size` is its full width in the units of the drawing. */
export function PegMark(props: {
  readonly lane: LaneId;
  readonly x: number;
  readonly y: number;
  readonly size: number;
  readonly open?: boolean;
  readonly picked?: boolean;
}) {
  const corner = () => (props.lane === "upper" ? props.size * 0.08 : props.size / 2);
  return (
    <rect
      class="peg"
      data-lane={props.lane}
      data-open={props.open ? "" : undefined}
      data-picked={props.picked ? "" : undefined}
      x={props.x - props.size / 2}
      y={props.y - props.size / 2}
      width={props.size}
      height={props.size}
      rx={corner()}
    />
  );
}
