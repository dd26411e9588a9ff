/**
 * What lies quietly on the neck: the grips before and after, and where the other lane's notes
 * would be, those of the picked finding less quietly.
 */
import type { LaneId } from "@halflap/board/board";
import type { Grip } from "@halflap/theory/grip";
import { gripNotes } from "@halflap/theory/grip";
import { neckFret } from "@halflap/theory/tuning";
import { createMemo, For, Show } from "solid-js";
import { otherLane, useDesk } from "../board/desk.ts";
import { type NeckShape, pegX, stringY } from "./neck-shape.ts";
import type { NeckSlot } from "./neck-slot.ts";
import type { NeckView } from "./neck-view.ts";
import { fretOn } from "./one-string.ts";
import { type PitchPlace, placesOfPitches } from "./pitch-places.ts";

/** Drawn for the eye; the table of voices says the same in words. */
export function NeckGhosts(props: {
  readonly slot: NeckSlot;
  readonly view: NeckView;
  readonly shape: NeckShape;
}) {
  const desk = useDesk();
  const theirs = createMemo(() => {
    const { place, others, setup, grip } = props.slot;
    return placesOfPitches(others(), setup()).map((each) => {
      const mine = fretOn(grip(), each.string);
      return {
        ...each,
        isPicked: desk.isPicked(otherLane(place().lane), place().slot, each.pitch),
        isMine: mine !== undefined && neckFret(setup(), mine) === each.fromNut,
      };
    });
  });
  const neighbours = () => props.slot.neighbours();
  return (
    <g aria-hidden="true">
      <For each={theirs()}>
        {(place) => (
          <Show when={props.view.showsOther() || place.isPicked}>
            <Theirs lane={otherLane(props.slot.place().lane)} shape={props.shape} place={place} />
          </Show>
        )}
      </For>
      <Show when={props.view.showsBefore() && neighbours().before}>
        {(before) => (
          <Ghost slot={props.slot} shape={props.shape} grip={before().grip} when="before" />
        )}
      </Show>
      <Show when={props.view.showsAfter() && neighbours().after}>
        {(after) => (
          <Ghost slot={props.slot} shape={props.shape} grip={after().grip} when="after" />
        )}
      </Show>
    </g>
  );
}

type TheirPlace = PitchPlace & { readonly isPicked: boolean; readonly isMine: boolean };

/** A note of the picked finding is larger, and frames my own peg where both are in one place. */
function Theirs(props: {
  readonly lane: LaneId;
  readonly shape: NeckShape;
  readonly place: TheirPlace;
}) {
  const size = () => (props.place.isPicked ? (props.place.isMine ? 29 : 14) : 8);
  return (
    <rect
      class="neck-theirs"
      data-lane={props.lane}
      data-picked={props.place.isPicked ? "" : undefined}
      x={pegX(props.shape, props.place.fromNut) - size() / 2}
      y={stringY(props.place.string) - size() / 2}
      width={size()}
      height={size()}
      rx={props.lane === "lower" ? size() / 2 : 0}
    />
  );
}

function Ghost(props: {
  readonly slot: NeckSlot;
  readonly shape: NeckShape;
  readonly grip: Grip;
  readonly when: "before" | "after";
}) {
  const pegs = () =>
    gripNotes(props.grip, props.slot.setup()).map((note) => {
      const setup = props.slot.setup();
      const place = neckFret(setup, note.fret) ?? setup.capo;
      return { x: pegX(props.shape, place), y: stringY(note.string) };
    });
  const half = 12.5;
  // An opening bracket for what was, a closing one for what comes.
  const path = () => (props.when === "before" ? -1 : 1);
  return (
    <For each={pegs()}>
      {(peg) => (
        <path
          class="neck-ghost"
          data-when={props.when}
          d={`M${peg.x + path() * 4} ${peg.y - half} H${peg.x + path() * half} V${
            peg.y + half
          } H${peg.x + path() * 4}`}
        />
      )}
    </For>
  );
}
