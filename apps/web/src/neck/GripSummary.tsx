/**
 * The grip in words: its strings, how it sits beside the other lane, and why it can't be held if
 * it can't.
 */
import { describeGrip } from "@halflap/theory/describe-grip";
import { whyUnplayable } from "@halflap/theory/hand";
import { createMemo, Show } from "solid-js";
import { LockButton } from "../fit/LockButton.tsx";
import { HearButton } from "../listen/HearButton.tsx";
import { hearWhenPointed, pointedSlot } from "../listen/hear-when-pointed.ts";
import { listenWords } from "../words/listen.ts";
import { neckWords } from "../words/neck.ts";
import { wishWords } from "../words/wishes.ts";
import { BesideWords } from "./BesideWords.tsx";
import { besideOf } from "./beside.ts";
import type { NeckSlot } from "./neck-slot.ts";

/** Nothing while there is no grip. */
export function GripSummary(props: { readonly slot: NeckSlot }) {
  const described = createMemo(() => {
    const grip = props.slot.grip();
    return grip
      ? describeGrip(grip, props.slot.setup(), props.slot.chord(), props.slot.key())
      : undefined;
  });
  const beside = () =>
    besideOf(
      [...(described()?.notes ?? [])].map((note) => note.pitch).sort((a, b) => a - b),
      props.slot.others(),
    );
  const unplayable = () => {
    const grip = props.slot.grip();
    return grip ? whyUnplayable(grip, props.slot.setup()) : undefined;
  };
  return (
    <Show when={described()}>
      {(grip) => (
        <div class="grip-summary" ref={hearWhenPointed(() => pointedSlot(props.slot.place(), []))}>
          <p class="small soft">
            {neckWords.strings(grip().stringSet)}
            {grip().rootless ? ` · ${neckWords.rootless}` : ""}
            <BesideWords beside={beside()} whose={props.slot.whoseOther()} slot={props.slot} />
          </p>
          <div class="grip-acts">
            <HearButton
              words={listenWords.hearBar}
              bars={[props.slot.place().bar]}
              lane={props.slot.place().lane}
              edits={[]}
            />
            <Show when={props.slot.mayWrite()}>
              <LockButton
                lane={props.slot.place().lane}
                slot={props.slot.place().slot}
                words={wishWords.lockFromNeck}
              />
            </Show>
          </div>
          <Show when={unplayable()}>
            {(why) => (
              <p class="small problem">
                {neckWords.unplayable} {why()}
              </p>
            )}
          </Show>
        </div>
      )}
    </Show>
  );
}
