/**
 * One slot of a lane: its grip as a small diagram and a fret string, or what stands there instead.
 */
import "./LaneCell.css";
import type { Bar, LaneId, Slot } from "@halflap/board/board";
import { describeGrip } from "@halflap/theory/describe-grip";
import { pretty } from "@halflap/theory/display";
import { type Grip, printGrip } from "@halflap/theory/grip";
import type { Setup } from "@halflap/theory/tuning";
import { createMemo, Show } from "solid-js";
import { hearWhenPointed, pointedSlot } from "../listen/hear-when-pointed.ts";
import { GripDiagram } from "../neck/GripDiagram.tsx";
import { boardWords } from "../words/board.ts";
import { type SlotPlace, useDesk } from "./desk.ts";
import { LockSign } from "./LockSign.tsx";
import { PresenceTags } from "./PresenceTags.tsx";
import { placeId } from "./place.ts";

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
  const tried = createMemo(() => desk.triedAt(props.lane, props.slot.id));
  const rests = createMemo(() => lane().layOuts.has(props.bar.id));
  const isLocked = createMemo(() => lane().wishes.locked.has(props.slot.id));
  const words = createMemo(() => {
    if (rests()) return boardWords.laysOut;
    const said = (here: Grip, setup: Setup) => {
      const chord = props.slot.chord?.kind === "chord" ? props.slot.chord : undefined;
      return describeGrip(here, setup, chord, desk.session.board.key).text;
    };
    const [here, then] = [grip(), tried()];
    const now = here ? said(here, lane().setup) : boardWords.noGrip;
    return then ? boardWords.wouldBe(said(then, shownSetup()), now) : now;
  });
  const before = () => {
    const here = grip();
    return here ? printGrip(here) : boardWords.noGrip;
  };
  const shown = () => tried() ?? grip();
  const shownSetup = () => (tried() && desk.triedSetup(props.lane)) ?? lane().setup;
  return (
    // biome-ignore lint/a11y/useKeyWithClickEvents: the board listens to the keys of every place
    <div
      class="lane-cell"
      ref={hearWhenPointed(() => (grip() ? pointedSlot(place(), []) : undefined))}
      role="gridcell"
      id={placeId(place())}
      tabindex={desk.isHere(place()) ? 0 : -1}
      aria-selected={desk.isChosen(place())}
      data-rests={rests() ? "" : undefined}
      data-tried={tried() && !rests() ? "" : undefined}
      style={{ "--beats": props.slot.length }}
      onClick={() => desk.press(place())}
      onDblClick={() => desk.openNeck(place())}
      onFocus={() => desk.stand(place())}
    >
      <span class="spoken">
        {boardWords.bar(props.bar.number)}, {pretty(props.slot.text)}: {words()}
      </span>
      <Show
        when={!rests() && shown()}
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
              setup={shownSetup()}
              lane={props.lane}
              isPicked={(pitch) => desk.isPicked(props.lane, props.slot.id, pitch)}
            />
            <span class="fret-string" aria-hidden="true">
              {printGrip(here())}
            </span>
            <Show when={tried()}>
              <s class="grip-before" aria-hidden="true">
                {before()}
              </s>
            </Show>
          </>
        )}
      </Show>
      <Show when={isLocked()}>
        <LockSign />
      </Show>
      <PresenceTags lane={props.lane} slot={props.slot.id} />
    </div>
  );
}
