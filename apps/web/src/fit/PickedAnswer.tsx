/** The answer that lies on the board: what it would change, how it sounds, and taking it. */
import type { Answer } from "@halflap/fitter/answer";
import { pretty } from "@halflap/theory/display";
import { createSignal, Show } from "solid-js";
import { useDesk } from "../board/desk.ts";
import { fitWords } from "../words/fit.ts";
import { changeCount, previewOf } from "./answer-preview.ts";
import type { FitState } from "./create-fitting.ts";
import { HearAnswer } from "./HearAnswer.tsx";
import { MendPart } from "./MendPart.tsx";
import { TakePart } from "./TakePart.tsx";
import type { LaneChange } from "./taking.ts";
import { WhyPart } from "./WhyPart.tsx";

/** Made anew for each answer. */
export function PickedAnswer(props: {
  readonly fit: FitState;
  readonly answer: Answer;
  readonly number: number;
}) {
  const desk = useDesk();
  const [along, setAlong] = createSignal<readonly LaneChange[]>([]);
  const count = () => changeCount(previewOf(props.answer, desk.session.board));
  return (
    <Show when={props.answer.id} keyed>
      {(id) => (
        <section class="fit-picked" aria-labelledby="fit-picked">
          <div class="fit-head">
            <h3 id="fit-picked" class="strong">
              {fitWords.picked(props.number)}
            </h3>
            <button
              type="button"
              class="button bare small"
              onClick={() => desk.setPreview(undefined)}
            >
              {fitWords.putAway}
            </button>
          </div>
          <p class="small">{count() === 0 ? fitWords.same : fitWords.onBoard(count())}</p>
          <p class="small soft">{pretty(fitWords.hardestIs(props.answer.hardest.words))}</p>
          <HearAnswer answer={props.answer} along={along()} />
          <MendPart fit={props.fit} answer={id} onAlong={setAlong} />
          <TakePart fit={props.fit} answer={props.answer} along={along()} />
          <WhyPart fit={props.fit} answer={props.answer} />
        </section>
      )}
    </Show>
  );
}
