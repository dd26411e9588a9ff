/** Strum pattern, fills and marks of one lane in one bar. */
import type { BarId, LaneId } from "@halflap/board/board";

/** Lies beside the board where the neck would. */
export function PlayingPanel(props: { readonly lane: LaneId; readonly bar: BarId }) {
  return <section class="panel" data-lane={props.lane} data-bar={props.bar} />;
}
