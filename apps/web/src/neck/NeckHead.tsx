/** The head of the neck panel: which bar, which chord, whose lane, and the way on. */
import { pretty } from "@halflap/theory/display";
import { createMemo, Show } from "solid-js";
import { useDesk } from "../board/desk.ts";
import { whosePart } from "../board/owner.ts";
import { samePlace, slotPlaces } from "../board/place.ts";
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
    <header class="neck-head">
      <div class="neck-where">
        <h2 id="neck-title" class="neck-title">
          <span class="neck-chord">{pretty(props.slot.slot()?.text ?? "")}</span>
          <span class="small soft">
            {neckWords.title(props.slot.bar()?.number ?? 0)} ·{" "}
            {whosePart(desk.session, props.slot.place().lane)}
          </span>
        </h2>
        <Show when={shape()}>
          {(held) => <p class="small soft">{neckWords.held(pretty(held()))}</p>}
        </Show>
      </div>
      <div class="neck-ways">
        <button
          type="button"
          class="button bare"
          aria-label={neckWords.previous}
          disabled={index() <= 0}
          onClick={() => walk(-1)}
        >
          ←
        </button>
        <button
          type="button"
          class="button bare"
          aria-label={neckWords.next}
          disabled={index() < 0 || index() >= places().length - 1}
          onClick={() => walk(1)}
        >
          →
        </button>
        <button type="button" class="button" onClick={() => desk.closeNeck()}>
          {neckWords.closeShort}
        </button>
      </div>
    </header>
  );
}
