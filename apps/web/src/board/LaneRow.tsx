/** A line of one lane: a timber with square ends above the seam, with round ends below it. */
import "./LaneRow.css";
import type { Bar, LaneId } from "@halflap/board/board";
import { standardTuning, tuningName } from "@halflap/theory/tuning";
import { For, Show } from "solid-js";
import { PlayingStrip } from "../playing/PlayingStrip.tsx";
import { boardWords } from "../words/board.ts";
import { useDesk } from "./desk.ts";
import { LaneCell } from "./LaneCell.tsx";
import { laneOwner, whosePart } from "./owner.ts";
import { ProposalSign } from "./ProposalSign.tsx";

/** A row of the board's grid, one cell a slot. */
export function LaneRow(props: { readonly lane: LaneId; readonly bars: readonly Bar[] }) {
  const desk = useDesk();
  const isOwn = () => desk.session.ownLane() === props.lane;
  const lane = () => desk.session.board.lanes[props.lane];
  /** What is unusual about this guitar: another tuning, a capo. */
  const guitar = () => {
    const { tuning, capo } = lane().setup;
    const name = tuningName(tuning);
    const tuned = name === tuningName(standardTuning) ? [] : [name];
    return [...tuned, ...(capo > 0 ? [boardWords.capo(capo)] : [])].join(", ");
  };
  return (
    <div
      class="line-row lane-row"
      role="row"
      data-lane={props.lane}
      data-own={isOwn() ? "" : undefined}
      data-free={laneOwner(desk.session, props.lane) ? undefined : ""}
    >
      <div class="line-gutter lane-name" role="rowheader">
        <span class="lane-whose">{whosePart(desk.session, props.lane)}</span>
        <span class="lane-which small soft">{boardWords.lanesShort[props.lane]}</span>
        <Show when={guitar()}>
          {(words) => <span class="lane-which small soft">{words()}</span>}
        </Show>
      </div>
      <For each={props.bars}>
        {(bar) => (
          <div class="lane-bar" role="presentation">
            <For each={bar.slots}>
              {(slot) => <LaneCell lane={props.lane} bar={bar} slot={slot} />}
            </For>
            <PlayingStrip lane={props.lane} bar={bar} />
            <ProposalSign lane={props.lane} bar={bar} />
          </div>
        )}
      </For>
    </div>
  );
}
