/**
 * What lies quietly on the neck: the grips before and after, and where the other lane's notes
 * would be, those of the picked finding less quietly.
 */
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
  const theirs = createMemo(() => placesOfPitches(props.slot.others(), props.slot.setup()));
  const neighbours = () => props.slot.neighbours();
  return (
    <g aria-hidden="true">
      <For each={theirs()}>
        {(place) => (
          <Theirs slot={props.slot} view={props.view} shape={props.shape} place={place} />
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

/** A note of the picked finding is larger, and frames my own peg where both are in one place. */
function Theirs(props: {
  readonly slot: NeckSlot;
  readonly view: NeckView;
  readonly shape: NeckShape;
  readonly place: PitchPlace;
}) {
  const desk = useDesk();
  const lane = () => otherLane(props.slot.place().lane);
  const isPicked = () => desk.isPicked(lane(), props.slot.place().slot, props.place.pitch);
  const isMine = () => {
    const mine = fretOn(props.slot.grip(), props.place.string);
    return mine !== undefined && neckFret(props.slot.setup(), mine) === props.place.fromNut;
  };
  const size = () => (isPicked() ? (isMine() ? 29 : 14) : 8);
  return (
    <Show when={props.view.showsOther() || isPicked()}>
      <rect
        class="neck-theirs"
        data-lane={lane()}
        data-picked={isPicked() ? "" : undefined}
        x={pegX(props.shape, props.place.fromNut) - size() / 2}
        y={stringY(props.place.string) - size() / 2}
        width={size()}
        height={size()}
        rx={lane() === "lower" ? size() / 2 : 0}
      />
    </Show>
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
