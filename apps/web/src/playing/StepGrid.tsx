/** The steps of a pattern as a row of buttons; a press goes round nothing, down, up. */
import "./StepGrid.css";
import type { Step } from "@halflap/board/playing";
import { createMemo, createSignal, For, Index, Show } from "solid-js";
import { playingWords } from "../words/playing.ts";
import { beatName, beatSign } from "./beat-name.ts";
import type { Playing } from "./create-playing.ts";
import { stepText } from "./playing-text.ts";
import { StepGlyph } from "./StepGlyph.tsx";
import { beatGroups, hasMark, isOnBeat, marked, pressed, stepKey, withStep } from "./step-grid.ts";

const marks = ["accent", "ghost", "choke", "push"] as const;

/** One stop for Tab: arrows walk the steps, letters write them. */
export function StepGrid(props: { readonly playing: Playing }) {
  const strum = () => props.playing.draft();
  const [chosen, setChosen] = createSignal(0);
  const at = () => Math.min(chosen(), strum().steps.length - 1);
  const groups = createMemo(() => beatGroups(strum(), props.playing.meter()));
  const stepAt = (index: number): Step => strum().steps[index] ?? { kind: "rest" };
  let row: HTMLDivElement | undefined;

  const put = (index: number, step: Step) =>
    props.playing.changeStrum({ steps: withStep(strum().steps, index, step) });
  const focus = (index: number) => {
    setChosen(index);
    row?.querySelector<HTMLElement>(`[data-step="${index}"]`)?.focus();
  };
  const press = (index: number) => {
    setChosen(index);
    put(index, pressed(stepAt(index)));
  };
  const onKey = (event: KeyboardEvent, index: number) => {
    const act = stepKey(event, strum(), index, props.playing.meter());
    if (act === undefined) return;
    event.preventDefault();
    if (act.kind === "walk") focus(act.to);
    else {
      put(index, act.step);
      if (act.goesOn) focus(Math.min(index + 1, strum().steps.length - 1));
    }
  };
  const mark = (name: (typeof marks)[number]) => {
    const onBeat = isOnBeat(at(), strum().step, props.playing.meter());
    put(at(), marked(stepAt(at()), name, onBeat));
  };
  return (
    <div class="step-grid">
      <div ref={row} class="step-row" role="group" aria-label={playingWords.steps}>
        <Index each={groups()}>
          {(group) => (
            <div class="step-beat">
              <Index each={group()}>
                {(index) => (
                  <StepButton
                    index={index()}
                    step={stepAt(index())}
                    start={index() * strum().step}
                    beat={props.playing.beat()}
                    isChosen={index() === at()}
                    onPress={() => press(index())}
                    onKey={(event) => onKey(event, index())}
                    onChoose={() => setChosen(index())}
                  />
                )}
              </Index>
            </div>
          )}
        </Index>
      </div>
      <div class="step-marks" role="group" aria-label={playingWords.marksLabel}>
        <span class="small soft step-marks-of" aria-hidden="true">
          {playingWords.chosenStep(beatName(at() * strum().step, props.playing.beat()))}
        </span>
        <For each={marks}>
          {(name) => (
            <button
              type="button"
              class="button"
              aria-pressed={hasMark(stepAt(at()), name)}
              onClick={() => mark(name)}
            >
              {playingWords.marks[name]}
            </button>
          )}
        </For>
      </div>
    </div>
  );
}

function StepButton(props: {
  readonly index: number;
  readonly step: Step;
  readonly start: number;
  readonly beat: number;
  readonly isChosen: boolean;
  readonly onPress: () => void;
  readonly onKey: (event: KeyboardEvent) => void;
  readonly onChoose: () => void;
}) {
  const struck = () => (props.step.kind === "rest" ? undefined : props.step);
  return (
    <button
      type="button"
      class="step-button"
      data-step={props.index}
      data-chosen={props.isChosen ? "" : undefined}
      tabindex={props.isChosen ? 0 : -1}
      aria-label={playingWords.step(beatName(props.start, props.beat), stepText(props.step))}
      onClick={() => props.onPress()}
      onKeyDown={(event) => props.onKey(event)}
      onFocus={() => props.onChoose()}
    >
      <span class="step-count" data-beat={props.start % props.beat === 0 ? "" : undefined}>
        {beatSign(props.start, props.beat)}
      </span>
      <svg viewBox="-12 -16 24 26" aria-hidden="true">
        <Show when={struck()} fallback={<path class="step-rest" d="M-2 0H2" />}>
          {(step) => (
            <>
              <StepGlyph step={step()} />
              <Show when={hasMark(step(), "push")}>
                <path class="step-push" d="M-2 8Q5 12 12 7" />
              </Show>
            </>
          )}
        </Show>
      </svg>
    </button>
  );
}
