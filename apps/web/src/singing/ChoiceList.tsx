/** A list of like questions, each answered from the same few answers. */
import { For, Index, type JSX, Show } from "solid-js";

/** What is asked, in sight and for whoever does not see what stands around it. */
export type Question<Answer extends string> = {
  readonly words: string;
  readonly spoken: string;
  /** undefined = not answered. */
  readonly answer: Answer | undefined;
  readonly onAnswer: (answer: Answer | undefined) => void;
};

/** `none` is said where there is nothing to ask, `open` where nothing was answered. */
export function ChoiceList<Answer extends string>(props: {
  readonly id: string;
  readonly title: string;
  readonly hint?: string;
  readonly none: string;
  readonly open: string;
  readonly questions: readonly Question<Answer>[];
  readonly answers: readonly { readonly id: Answer; readonly words: string }[];
  readonly isReadOnly: boolean;
}): JSX.Element {
  const chosen = (value: string) => props.answers.find(({ id }) => id === value)?.id;
  return (
    <section aria-labelledby={props.id}>
      <h3 id={props.id} class="label">
        {props.title}
      </h3>
      <Show when={props.questions.length > 0} fallback={<p class="small soft">{props.none}</p>}>
        <Show when={props.hint}>{(words) => <p class="small soft">{words()}</p>}</Show>
        <ul class="singing-choices">
          <Index each={props.questions}>
            {(question) => (
              <li>
                <label class="singing-choice">
                  <span>{question().words}</span>
                  <select
                    class="field"
                    aria-label={question().spoken}
                    disabled={props.isReadOnly}
                    onChange={(event) => question().onAnswer(chosen(event.currentTarget.value))}
                  >
                    <option value="" selected={question().answer === undefined}>
                      {props.open}
                    </option>
                    <For each={props.answers}>
                      {(answer) => (
                        <option value={answer.id} selected={question().answer === answer.id}>
                          {answer.words}
                        </option>
                      )}
                    </For>
                  </select>
                </label>
              </li>
            )}
          </Index>
        </ul>
      </Show>
    </section>
  );
}
