/** The answers: compared with each other and with the board as it is, and the one picked. */
import type { FitResult } from "@halflap/fitter/answer";
import { For, Show } from "solid-js";
import { fitWords } from "../words/fit.ts";
import { CompareTable } from "./CompareTable.tsx";
import type { FitState } from "./create-fitting.ts";
import { PickedAnswer } from "./PickedAnswer.tsx";

/** Nothing of it changes the board. */
export function Answers(props: {
  readonly fit: FitState;
  readonly result: Extract<FitResult, { kind: "answers" }>;
}) {
  const number = (id: string) => props.result.answers.findIndex((each) => each.id === id) + 1;
  return (
    <section class="fit-answers" aria-label={fitWords.compare} data-stale={props.fit.isStale()}>
      <Show when={props.result.answers.length > 0}>
        <CompareTable fit={props.fit} result={props.result} />
        <p class="small soft">{fitWords.differsMeaning}</p>
        <Show when={props.fit.picked()} fallback={<p class="small soft">{fitWords.pickOne}</p>}>
          {(answer) => (
            <PickedAnswer fit={props.fit} answer={answer()} number={number(answer().id)} />
          )}
        </Show>
      </Show>
      <Show when={props.result.skipped.length > 0}>
        <details class="small soft">
          <summary>{fitWords.skipped(props.result.skipped.length)}</summary>
          <ul class="fit-list">
            <For each={props.result.skipped}>{({ words }) => <li>{words}</li>}</For>
          </ul>
        </details>
      </Show>
    </section>
  );
}
