/** Which lanes are still free, and for a listener that this board is for reading. */
import { laneIds } from "@halflap/board/board";
import { For, Show } from "solid-js";
import { boardWords } from "../words/board.ts";
import { ClaimButton } from "./ClaimButton.tsx";
import { useDesk } from "./desk.ts";
import { laneOwner } from "./owner.ts";

/** Nothing when there is nothing to claim and nothing to explain. */
export function LaneClaims() {
  const desk = useDesk();
  const isListener = () => desk.session.me().role === "listener";
  const mayClaim = () => !isListener() && desk.session.ownLane() === undefined;
  const free = () => laneIds.filter((lane) => laneOwner(desk.session, lane) === undefined);
  return (
    <>
      <Show when={isListener()}>
        <p class="board-notice small">{boardWords.listening}</p>
      </Show>
      <Show when={mayClaim() && free().length > 0}>
        <div class="board-notice">
          <For each={free()}>
            {(lane) => (
              <span class="lane-claim">
                <span class="lane-sign" data-lane={lane} aria-hidden="true" />
                {boardWords.isFree(boardWords.lanes[lane])} <ClaimButton lane={lane} />
              </span>
            )}
          </For>
        </div>
      </Show>
    </>
  );
}
