/** The sheet on which a chart is written, read while it is typed. */
import { For, type JSX, Show } from "solid-js";
import { doorWords } from "../words/door.ts";
import type { DraftText, Problem } from "./chart-draft-text.ts";
import { ProblemList } from "./ProblemList.tsx";
import { corrected, offsetOf } from "./text-place.ts";
import "./ChartWriter.css";

/** Writes into `draft`; says at once what can't be read, and how much can. */
export function ChartWriter(props: { readonly draft: DraftText }): JSX.Element {
  let field: HTMLTextAreaElement | undefined;
  const problems = () => props.draft.parsed()?.problems ?? [];
  const select = (problem: Problem, length: number) => {
    const start = offsetOf(props.draft.text(), problem);
    field?.focus();
    field?.setSelectionRange(start, start + length);
  };
  const use = (problem: Problem, meant: string) => {
    props.draft.write(corrected(props.draft.text(), problem, problem.read, meant));
    select(problem, meant.length);
  };
  return (
    <div class="chart-writer">
      <label class="label" for="chart-text">
        {doorWords.chartLabel}
      </label>
      <textarea
        ref={field}
        id="chart-text"
        class="field chart-writer-field"
        rows={11}
        spellcheck={false}
        autocapitalize="off"
        autocomplete="off"
        aria-invalid={problems().length > 0}
        aria-describedby="chart-kept"
        placeholder={doorWords.exampleText}
        value={props.draft.text()}
        onInput={(event) => props.draft.write(event.currentTarget.value)}
      />
      <div class="chart-writer-foot small">
        <p id="chart-kept" class="soft">
          <Show when={props.draft.parsed()?.draft} fallback={doorWords.kept}>
            {(draft) => (
              <span class="strong chart-writer-count">
                {doorWords.counted(draft().sections.length, props.draft.bars())}
              </span>
            )}
          </Show>
        </p>
        <Show when={props.draft.text() === ""}>
          <button
            type="button"
            class="button bare"
            onClick={() => props.draft.write(doorWords.exampleText)}
          >
            {doorWords.example}
          </button>
        </Show>
      </div>
      <Show when={problems().length > 0}>
        <ProblemList
          problems={problems()}
          onGo={(problem) => select(problem, problem.read.length)}
          onUse={use}
        />
      </Show>
      <details class="chart-writer-how">
        <summary class="strong">{doorWords.how}</summary>
        <ul class="soft">
          <For each={doorWords.howLines}>{(line) => <li>{line}</li>}</For>
        </ul>
      </details>
    </div>
  );
}
