/** What was recorded, before it is kept: hear it, put it right, name it, or throw it away. */

import { nameMax } from "@halflap/board/limits";
import { memberNameMax } from "@halflap/wire/limits";
import { createSignal, createUniqueId, onCleanup, Show } from "solid-js";
import { SureButton } from "../../app/SureButton.tsx";
import { useDesk } from "../../board/desk.ts";
import { takeWords } from "../../words/takes.ts";
import { barWithSection } from "../bar-names.ts";
import { useListening } from "../create-listening.ts";
import type { Draft } from "./create-recording.ts";
import type { Takes } from "./create-takes.ts";
import { OwnTempo } from "./OwnTempo.tsx";

const nudgeMsMax = 250;
const nudgeStepMs = 5;
const takeNameMax = Math.min(nameMax, memberNameMax);

/** Nothing leaves this browser before it is kept. */
export function DraftPart(props: { readonly draft: Draft; readonly takes: Takes }) {
  const desk = useDesk();
  const listening = useListening();
  const id = createUniqueId();
  const [nudgeMs, setNudgeMs] = createSignal(0);
  const [name, setName] = createSignal("");
  const numberOf = (at: number) =>
    barWithSection(desk.session.board, props.draft.head.bars.at(at)?.bar)?.bar.number ?? 1;
  const usualName = () => takeWords.usualName(numberOf(0), numberOf(-1));
  /** What sounds later begins earlier in its recording. */
  const head = () => {
    const { head } = props.draft;
    return {
      ...head,
      name: name().trim() || usualName(),
      offsetMs: Math.max(0, head.offsetMs - nudgeMs()),
    };
  };
  const done = () => {
    listening.stop();
    props.takes.recording.forget();
  };
  onCleanup(() => props.takes.leaveDraft());
  return (
    <div class="take-draft">
      <Show when={props.draft.hasClipped}>
        <p class="small problem">{takeWords.wasClipped}</p>
      </Show>
      <div class="take-row">
        <button
          type="button"
          class="button"
          onClick={() =>
            listening.isOn() ? listening.stop() : props.takes.hearDraft(props.draft, head())
          }
        >
          {listening.isOn() ? takeWords.hearStop : takeWords.hearDraft}
        </button>
      </div>
      <div class="take-row">
        <label class="small strong" for={`${id}-nudge`}>
          {takeWords.nudge}
        </label>
        <input
          id={`${id}-nudge`}
          type="range"
          min={-nudgeMsMax}
          max={nudgeMsMax}
          step={nudgeStepMs}
          value={nudgeMs()}
          aria-valuetext={takeWords.nudged(nudgeMs())}
          onInput={(event) => {
            setNudgeMs(event.currentTarget.valueAsNumber);
            props.takes.nudgeDraft(head());
          }}
        />
        <output class="small" for={`${id}-nudge`}>
          {takeWords.nudged(nudgeMs())}
        </output>
      </div>
      <OwnTempo take={props.draft.head} takes={props.takes} />
      <label class="small strong" for={`${id}-name`}>
        {takeWords.name}
      </label>
      <input
        id={`${id}-name`}
        class="field"
        maxlength={takeNameMax}
        placeholder={usualName()}
        value={name()}
        onInput={(event) => setName(event.currentTarget.value)}
      />
      <div class="take-row">
        <button
          type="button"
          class="button main"
          onClick={() => {
            props.takes.keep(props.draft, head());
            done();
          }}
        >
          {takeWords.keep}
        </button>
        <SureButton words={takeWords.throwAway} sure={takeWords.sure} onSure={done} />
      </div>
    </div>
  );
}
