/** Keeps the grip of a slot from being fitted anew. */
import type { LaneId, SlotId } from "@halflap/board/board";
import { useDesk } from "../board/desk.ts";
import { wishWords } from "../words/wishes.ts";

/** For the owner of the lane; one press locks, the next unlocks. */
export function LockButton(props: {
  readonly lane: LaneId;
  readonly slot: SlotId;
  readonly words: string;
}) {
  const desk = useDesk();
  const isLocked = () => desk.session.board.lanes[props.lane].wishes.locked.has(props.slot);
  const turn = () =>
    desk.session.lane()?.edit([{ kind: "lock", slot: props.slot, on: !isLocked() }]);
  return (
    <button
      type="button"
      class="button small"
      aria-pressed={isLocked()}
      title={wishWords.lockMeaning}
      onClick={turn}
    >
      {props.words}
    </button>
  );
}
