/** The button that fits, how far the work is and the way to stop it, and what came of it. */
import { Show } from "solid-js";
import { useDesk } from "../board/desk.ts";
import { fitWords } from "../words/fit.ts";
import type { FitState } from "./create-fitting.ts";
import { whyNothing } from "./fit-ask.ts";

/** The button keeps its place and the keys, whatever is worked on. */
export function RunLine(props: { readonly fit: FitState }) {
  const desk = useDesk();
  // What is worked on and not shown yet gives way to the next question.
  const mayRun = () => props.fit.request() !== undefined && props.fit.progress() === undefined;
  const whyNot = () => {
    const why = whyNothing(props.fit.ask(), desk.session.board);
    return why && fitWords.nothingToFit[why];
  };
  let line: HTMLDivElement | undefined;
  const run = async () => {
    if (!mayRun()) return;
    await props.fit.run();
    const answers = line?.closest(".fit-panel")?.querySelector(".fit-answers, .fit-impossible");
    answers?.scrollIntoView({ block: "nearest" });
  };
  return (
    <div ref={line} class="fit-run">
      <button
        type="button"
        class="button main fit-start"
        aria-disabled={!mayRun()}
        onClick={() => void run()}
      >
        {props.fit.result() === undefined ? fitWords.start : fitWords.again}
      </button>
      <Show when={props.fit.progress()}>
        {(progress) => (
          <>
            <progress
              class="fit-progress"
              max="1"
              value={progress().done}
              aria-label={fitWords.working}
            />
            <button type="button" class="button" onClick={() => props.fit.cancel()}>
              {fitWords.cancel}
            </button>
          </>
        )}
      </Show>
      <p class="small soft fit-says" role="status">
        {props.fit.progress()?.words ?? whyNot() ?? props.fit.note() ?? said(props.fit)}
      </p>
    </div>
  );
}

function said(fit: FitState): string {
  const [result, asked] = [fit.result(), fit.asked()];
  if (fit.isStale()) return fitWords.stale;
  if (result?.kind !== "answers" || asked === undefined) return "";
  const count = result.answers.length;
  if (count === 0) return fitWords.noAnswer;
  const few = count < asked.answers ? ` ${fitWords.fewer(asked.answers)}` : "";
  return `${fitWords.answers(count)}.${few}`;
}
