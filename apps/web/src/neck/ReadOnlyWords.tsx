/** Why this neck can only be looked at, and how to get the lane if it is free. */
import type { LaneId } from "@halflap/board/board";
import { Match, Switch } from "solid-js";
import { ClaimButton } from "../board/ClaimButton.tsx";
import { useDesk } from "../board/desk.ts";
import { laneOwner, whosePart } from "../board/owner.ts";
import { neckWords } from "../words/neck.ts";

/** One sentence. */
export function ReadOnlyWords(props: { readonly lane: LaneId }) {
  const desk = useDesk();
  return (
    <div class="neck-read-only small soft">
      <Switch>
        <Match when={laneOwner(desk.session, props.lane)}>
          {neckWords.readOnlyOther(whosePart(desk.session, props.lane))}
        </Match>
        <Match when={desk.session.me().role === "listener"}>{neckWords.readOnlyListener}</Match>
        <Match when={true}>
          {neckWords.readOnlyFree} <ClaimButton lane={props.lane} />
        </Match>
      </Switch>
    </div>
  );
}
