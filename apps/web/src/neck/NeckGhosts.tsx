/**
 * What lies quietly on the neck: the grips before and after, and where the other lane's notes
 * would be.
 */
import type { Grip } from "@halflap/theory/grip";
import { gripNotes } from "@halflap/theory/grip";
import { neckFret } from "@halflap/theory/tuning";
import { createMemo, For, Show } from "solid-js";
import { otherLane } from "../board/desk.ts";
import { type NeckShape, pegX, stringY } from "./neck-shape.ts";
import type { NeckSlot } from "./neck-slot.ts";
import type { NeckView } from "./neck-view.ts";
import { placesOfPitches } from "./pitch-places.ts";

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
      <Show when={props.view.showsOther()}>
        <For each={theirs()}>
          {(place) => (
            <rect
              class="neck-theirs"
              data-lane={otherLane(props.slot.place().lane)}
              x={pegX(props.shape, place.fromNut) - 4}
              y={stringY(place.string) - 4}
              width="8"
              height="8"
              rx={otherLane(props.slot.place().lane) === "lower" ? 4 : 0}
            />
          )}
        </For>
      </Show>
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
