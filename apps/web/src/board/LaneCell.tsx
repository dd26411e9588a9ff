/**
 * One slot of a lane: its grip as a small diagram and a fret string, or what stands there instead.
 */
import "./LaneCell.css";
import type { Bar, LaneId, Slot } from "@halflap/board/board";
import { describeGrip } from "@halflap/theory/describe-grip";
import { pretty } from "@halflap/theory/display";
import { printGrip } from "@halflap/theory/grip";
import { createMemo, Show } from "solid-js";
import { GripDiagram } from "../neck/GripDiagram.tsx";
import { boardWords } from "../words/board.ts";
import { type SlotPlace, useDesk } from "./desk.ts";
import { PresenceTags } from "./PresenceTags.tsx";
import { placeId, samePlace } from "./place.ts";

/** A cell of the board's grid. Pressing it opens the neck. */
export function LaneCell(props: { readonly lane: LaneId; readonly bar: Bar; readonly slot: Slot }) {
  const desk = useDesk();
  const lane = () => desk.session.board.lanes[props.lane];
  const place = (): SlotPlace => ({
    kind: "slot",
    lane: props.lane,
    bar: props.bar.id,
    slot: props.slot.id,
  });
  const grip = createMemo(() => desk.gripAt(props.lane, props.slot.id));
  const rests = createMemo(() => lane().layOuts.has(props.bar.id));
  const isChosen = createMemo(() => samePlace(desk.slotPlace(), place()));
  const words = createMemo(() => {
    const here = grip();
    if (rests()) return boardWords.laysOut;
    if (!here) return boardWords.noGrip;
    const { board } = desk.session;
    const chord = props.slot.chord?.kind === "chord" ? props.slot.chord : undefined;
    return describeGrip(here, lane().setup, chord, board.key).text;
  });
  return (
    // biome-ignore lint/a11y/useKeyWithClickEvents: the board listens to the keys of every place
    <div
      class="lane-cell"
      role="gridcell"
      id={placeId(place())}
      tabindex={samePlace(desk.place(), place()) ? 0 : -1}
      aria-selected={isChosen()}
      data-rests={rests() ? "" : undefined}
      style={{ "--beats": props.slot.length }}
      onClick={() => desk.openNeck(place())}
      onFocus={() => desk.stand(place())}
    >
      <span class="spoken">
        {boardWords.bar(props.bar.number)}, {pretty(props.slot.text)}: {words()}
      </span>
      <Show
        when={!rests() && grip()}
        fallback={
          <span class="lane-empty small" aria-hidden="true">
            {rests() ? boardWords.laysOut : desk.mayWrite(props.lane) ? boardWords.choose : ""}
          </span>
        }
      >
        {(here) => (
          <>
            <GripDiagram
              grip={here()}
              setup={lane().setup}
              lane={props.lane}
              isPicked={(pitch) => desk.isPicked(props.lane, props.slot.id, pitch)}
            />
            <span class="fret-string" aria-hidden="true">
              {printGrip(here())}
            </span>
          </>
        )}
      </Show>
      <PresenceTags lane={props.lane} slot={props.slot.id} />
    </div>
  );
}
