/** The head of the neck panel: which bar, which chord, whose lane, and the way on. */
import { pretty } from "@halflap/theory/display";
import { createMemo, Show } from "solid-js";
import { useDesk } from "../board/desk.ts";
import { whosePart } from "../board/owner.ts";
import { samePlace, slotPlaces } from "../board/place.ts";
import { SideHead } from "../board/SideHead.tsx";
import { neckWords } from "../words/neck.ts";
import { heldName } from "./capo-names.ts";
import type { NeckSlot } from "./neck-slot.ts";

/** The two arrows walk the lane without closing the neck. */
export function NeckHead(props: { readonly slot: NeckSlot }) {
  const desk = useDesk();
  const places = createMemo(() =>
    slotPlaces(
      desk.session.board.sections.flatMap((section) => section.bars),
      props.slot.place().lane,
    ),
  );
  const index = () => places().findIndex((each) => samePlace(each, props.slot.place()));
  const walk = (by: 1 | -1) => {
    const next = places()[index() + by];
    if (next?.kind === "slot") desk.openNeck(next);
  };
  const shape = () => {
    const chord = props.slot.chord();
    return chord ? heldName(chord, props.slot.setup().capo) : undefined;
  };
  return (
    <SideHead
      id="neck-title"
      titleClass="neck-title"
      title={
        <>
          <span class="neck-chord">{pretty(props.slot.slot()?.text ?? "")}</span>
          <span class="small soft">
            {neckWords.title(props.slot.bar()?.number ?? 0)} ·{" "}
            {whosePart(desk.session, props.slot.place().lane)}
          </span>
        </>
      }
      more={
        <Show when={shape()}>
          {(held) => <p class="small soft">{neckWords.held(pretty(held()))}</p>}
        </Show>
      }
      walk={{
        previous: neckWords.previous,
        next: neckWords.next,
        index: index(),
        count: places().length,
        onWalk: walk,
      }}
      close={neckWords.closeShort}
      onClose={() => desk.closeNeck()}
    />
  );
}
