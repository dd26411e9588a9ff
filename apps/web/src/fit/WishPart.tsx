/** The wishes of both lanes: mine to change, folded until wanted; the other's to read. */
import { type LaneId, laneIds } from "@halflap/board/board";
import { usualWishes } from "@halflap/board/wishes";
import { accidentalsOf } from "@halflap/theory/key";
import { createMemo, For, Show } from "solid-js";
import { useDesk } from "../board/desk.ts";
import { laneInSentence } from "../board/owner.ts";
import { wishWords } from "../words/wishes.ts";
import { GripWishes } from "./GripWishes.tsx";
import { NeckWishes } from "./NeckWishes.tsx";
import { StringSetWishes } from "./StringSetWishes.tsx";
import { wishLines } from "./wish-lines.ts";

/** A lane in which nothing is wished and that is not mine says nothing. */
export function WishPart() {
  const desk = useDesk();
  const mine = () => laneIds.find(desk.mayWrite);
  const others = () => laneIds.filter((lane) => lane !== mine());
  return (
    <div class="fit-wishes">
      <Show when={mine()}>{(lane) => <OwnWishes lane={lane()} />}</Show>
      <For each={others()}>{(lane) => <OtherWishes lane={lane} />}</For>
    </div>
  );
}

function createLines(lane: () => LaneId) {
  const { board } = useDesk().session;
  return createMemo(() => wishLines(board.lanes[lane()].wishes, accidentalsOf(board.key)));
}

function OwnWishes(props: { readonly lane: LaneId }) {
  const desk = useDesk();
  const lines = createLines(() => props.lane);
  return (
    <details class="fit-fold">
      <summary class="small">
        <span class="strong">{wishWords.mine}</span>
        <span class="soft">{lines().join(", ") || wishWords.none}</span>
      </summary>
      <div class="fit-fields small">
        <p class="soft">{wishWords.hint}</p>
        <GripWishes lane={props.lane} />
        <StringSetWishes lane={props.lane} />
        <NeckWishes lane={props.lane} />
        <Show when={lines().length > 0}>
          <button
            type="button"
            class="button small"
            onClick={() => desk.session.lane()?.setWishes(usualWishes)}
          >
            {wishWords.usual}
          </button>
        </Show>
      </div>
    </details>
  );
}

function OtherWishes(props: { readonly lane: LaneId }) {
  const desk = useDesk();
  const lines = createLines(() => props.lane);
  return (
    <Show when={lines().length > 0}>
      <p class="small fit-other-wishes">
        <span class="lane-sign" data-lane={props.lane} aria-hidden="true" />
        <span>
          <span class="strong">{wishWords.theirs(laneInSentence(desk.session, props.lane))}: </span>
          {lines().join(", ")}
        </span>
      </p>
    </Show>
  );
}
