/** What a lane plays in a bar beyond its grips, as a strip under them: strokes, fills, marks. */
import type { Bar, LaneId } from "@halflap/board/board";
import { Show } from "solid-js";
import { useDesk } from "../board/desk.ts";

/** Pressing it opens the bar's playing. */
export function PlayingStrip(props: { readonly lane: LaneId; readonly bar: Bar }) {
  const desk = useDesk();
  const lane = () => desk.session.board.lanes[props.lane];
  return (
    <Show when={lane().marks.get(props.bar.id)}>
      {(mark) => <span class="lane-mark small">{mark()}</span>}
    </Show>
  );
}
