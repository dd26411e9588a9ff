/** Who else is on the board now: initials in the shape of the lane each one plays. */
import { type LaneId, laneIds, type MemberId } from "@halflap/board/board";
import { For, type JSX, Show } from "solid-js";
import type { Session } from "../session/session.ts";
import { appWords } from "../words/app.ts";
import { initials } from "./initials.ts";
import "./PresenceRow.css";

/** Nothing while nobody else is here. */
export function PresenceRow(props: { readonly session: Session }): JSX.Element {
  const laneOf = (member: MemberId): LaneId | undefined =>
    laneIds.find((lane) => props.session.board.lanes[lane].owner === member);
  return (
    <Show when={props.session.presence().length > 0}>
      <ul class="presence-row" aria-label={appWords.presence}>
        <For each={props.session.presence()}>
          {(each) => (
            <li class="presence-chip strong" data-lane={laneOf(each.member)} title={each.name}>
              <span aria-hidden="true">{initials(each.name)}</span>
              <span class="spoken">{each.name}</span>
            </li>
          )}
        </For>
      </ul>
    </Show>
  );
}
