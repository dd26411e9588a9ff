/** What is wrong with a chart text: where, what was read, and, where it is near, what was meant. */
import { For, type JSX, Show } from "solid-js";
import { doorWords } from "../words/door.ts";
import type { Problem } from "./chart-draft-text.ts";
import "./ProblemList.css";

const shownMax = 8;

/** `onGo` takes the caret there, `onUse` takes what was meant. */
export function ProblemList(props: {
  readonly problems: readonly Problem[];
  readonly onGo: (problem: Problem) => void;
  readonly onUse: (problem: Problem, meant: string) => void;
}): JSX.Element {
  return (
    <div class="problems" role="status">
      <p class="strong problem">{doorWords.problems(props.problems.length)}</p>
      <ol>
        <For each={props.problems.slice(0, shownMax)}>
          {(problem) => (
            <li>
              <button type="button" class="problems-place" onClick={() => props.onGo(problem)}>
                <span class="small soft">{doorWords.place(problem.line, problem.column)}</span>
                <span>{problem.words}</span>
              </button>
              <Show when={problem.read !== "" && problem.meant}>
                {(meant) => (
                  <button
                    type="button"
                    class="button"
                    onClick={() => props.onUse(problem, meant())}
                  >
                    {doorWords.use(meant())}
                  </button>
                )}
              </Show>
            </li>
          )}
        </For>
      </ol>
      <Show when={props.problems.length > shownMax}>
        <p class="small soft">{doorWords.more(props.problems.length - shownMax)}</p>
      </Show>
    </div>
  );
}
