/** The head of the playing panel: which bar, whose part, and the way on. */
import { createMemo } from "solid-js";
import { useDesk } from "../board/desk.ts";
import { whosePart } from "../board/owner.ts";
import { SideHead } from "../board/SideHead.tsx";
import { playingWords } from "../words/playing.ts";
import type { Playing } from "./create-playing.ts";

/** The two arrows walk from bar to bar without closing the panel. */
export function PanelHead(props: { readonly playing: Playing }) {
  const desk = useDesk();
  const bars = createMemo(() => desk.session.board.sections.flatMap((section) => section.bars));
  const index = () => bars().findIndex((bar) => bar.id === props.playing.barId());
  const walk = (by: 1 | -1) => {
    const next = bars()[index() + by];
    const lane = props.playing.laneId();
    if (next === undefined) return;
    const slot = next.slots[0];
    if (slot) desk.stand({ kind: "slot", lane, bar: next.id, slot: slot.id });
    desk.openSidePanel({ kind: "playing", lane, bar: next.id });
  };
  return (
    <SideHead
      id="playing-title"
      titleClass="playing-title"
      title={
        <>
          <span class="large strong">
            {playingWords.title(
              props.playing.bar()?.number ?? 0,
              props.playing.section()?.name ?? "",
            )}
          </span>
          <span class="small soft">{whosePart(desk.session, props.playing.laneId())}</span>
        </>
      }
      walk={{
        previous: playingWords.previous,
        next: playingWords.next,
        index: index(),
        count: bars().length,
        onWalk: walk,
      }}
      close={playingWords.close}
      onClose={() => desk.closeSidePanel()}
    />
  );
}
