/**
 * One suggested grip: its diagram, its fret string, what it costs, and how it sits beside the
 * other lane.
 */
import { printGrip } from "@halflap/theory/grip";
import { Show } from "solid-js";
import { HearButton } from "../listen/HearButton.tsx";
import { hearWhenPointed, pointedSlot } from "../listen/hear-when-pointed.ts";
import { listenWords } from "../words/listen.ts";
import { neckWords } from "../words/neck.ts";
import { BesideWords } from "./BesideWords.tsx";
import type { Candidate } from "./candidates.ts";
import { GripDiagram } from "./GripDiagram.tsx";
import type { NeckSlot } from "./neck-slot.ts";

/** Pressing it places the grip. */
export function CandidateCard(props: {
  readonly candidate: Candidate;
  readonly slot: NeckSlot;
  readonly isChosen: boolean;
}) {
  const grip = () => props.candidate.ranked.grip;
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
          <Show when={props.candidate.ranked.words !== ""}>
            <span class="small soft">
              {props.candidate.ranked.words}
              <Show when={isBetween()}>{neckWords.inAll(props.candidate.ranked.motion)}</Show>
            </span>
          </Show>
          <BesideWords
            beside={props.candidate.beside}
            whose={props.slot.whoseOther()}
            slot={props.slot}
          />
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
