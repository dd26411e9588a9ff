/**
 * One suggested grip: its diagram, its fret string, what it costs, and how it sits beside the
 * other lane.
 */
import { gripPitches, printGrip } from "@halflap/theory/grip";
import type { RankedGrip } from "@halflap/theory/rank";
import { createMemo, Show } from "solid-js";
import { HearButton } from "../listen/HearButton.tsx";
import { hearWhenPointed, pointedSlot } from "../listen/hear-when-pointed.ts";
import { listenWords } from "../words/listen.ts";
import { neckWords } from "../words/neck.ts";
import { BesideWords } from "./BesideWords.tsx";
import { besideOf } from "./beside.ts";
import { GripDiagram } from "./GripDiagram.tsx";
import type { NeckSlot } from "./neck-slot.ts";

/** Pressing it places the grip. */
export function CandidateCard(props: {
  readonly candidate: RankedGrip;
  readonly slot: NeckSlot;
  readonly isChosen: boolean;
}) {
  const grip = () => props.candidate.grip;
  const beside = createMemo(() =>
    besideOf(gripPitches(grip(), props.slot.setup()), props.slot.others()),
  );
  const isBetween = () => {
    const { before, after } = props.slot.neighbours();
    return before !== undefined && after !== undefined;
  };
  const edits = () => [
    { kind: "grip", slot: props.slot.place().slot, grip: printGrip(grip()) } as const,
  ];
  const pointed = () => pointedSlot(props.slot.place(), edits());
  return (
    <li class="candidate-item" ref={hearWhenPointed(pointed)}>
      <button
        type="button"
        class="candidate"
        aria-pressed={props.isChosen}
        onClick={() => props.slot.placeGrip(grip())}
      >
        <GripDiagram grip={grip()} setup={props.slot.setup()} lane={props.slot.place().lane} />
        <span class="fret-string">{printGrip(grip())}</span>
        <span class="candidate-text">
          <Show when={props.candidate.words !== ""}>
            <span class="small soft">
              {props.candidate.words}
              <Show when={isBetween()}>{neckWords.inAll(props.candidate.motion)}</Show>
            </span>
          </Show>
          <BesideWords beside={beside()} whose={props.slot.whoseOther()} slot={props.slot} />
          <Show when={props.isChosen}>
            <span class="spoken">{neckWords.chosen}</span>
          </Show>
        </span>
      </button>
      <HearButton
        words={listenWords.hear}
        spoken={printGrip(grip())}
        bars={[props.slot.place().bar]}
        lane={props.slot.place().lane}
        edits={edits()}
      />
    </li>
  );
}
