/** Takes a free lane; says so when somebody else was faster. */
import type { LaneId } from "@halflap/board/board";
import { createSignal, Show } from "solid-js";
import { boardWords } from "../words/board.ts";
import { useDesk } from "./desk.ts";
import { laneOwner } from "./owner.ts";

/**
 * Nothing for a listener, on a lane that is taken, or for somebody who has a lane. Claiming leaves
 * the keys where the work begins.
 */
export function ClaimButton(props: { readonly lane: LaneId }) {
  const desk = useDesk();
  const [isWaiting, setWaiting] = createSignal(false);
  const [problem, setProblem] = createSignal<string>();
  const mayClaim = () =>
    desk.session.me().role !== "listener" &&
    desk.session.ownLane() === undefined &&
    laneOwner(desk.session, props.lane) === undefined;
  const claim = async () => {
    setWaiting(true);
    const refused = await desk.session.claim(props.lane);
    setWaiting(false);
    setProblem(refused?.problem);
    if (!refused) desk.takeUp(props.lane);
  };
  return (
    <>
      <Show when={mayClaim()}>
        <button
          type="button"
          class="button small"
          disabled={isWaiting()}
          aria-label={boardWords.claimLane(boardWords.lanesShort[props.lane])}
          onClick={claim}
        >
          {isWaiting() ? boardWords.claiming : boardWords.claim}
        </button>
      </Show>
      <Show when={problem()}>
        {(words) => (
          <span class="problem small" role="alert">
            {words()}
          </span>
        )}
      </Show>
    </>
  );
}
