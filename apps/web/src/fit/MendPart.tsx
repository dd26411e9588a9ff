/** What grips can't cure in an answer: strums and fills that would have to change, taken or not. */
import type { Mending } from "@halflap/fitter/mended";
import { createSignal, For, Match, onCleanup, Show, Switch } from "solid-js";
import { useDesk } from "../board/desk.ts";
import { whosePart } from "../board/owner.ts";
import { fitWords } from "../words/fit.ts";
import type { FitState } from "./create-fitting.ts";
import type { Told } from "./fitting.ts";
import type { LaneChange } from "./taking.ts";

type State = { readonly kind: "quiet" } | { readonly kind: "working" } | Told<Mending>;

/** Sought when asked for; `onAlong` is told what goes along when the answer is taken. */
export function MendPart(props: {
  readonly fit: FitState;
  readonly answer: string;
  readonly onAlong: (changes: readonly LaneChange[]) => void;
}) {
  const desk = useDesk();
  const [state, setState] = createSignal<State>({ kind: "quiet" });
  const [isAlong, setAlong] = createSignal(false);
  let isThere = true;
  onCleanup(() => {
    isThere = false;
    props.onAlong([]);
  });
  const seek = async () => {
    setState({ kind: "working" });
    const told = await props.fit.mend(props.answer);
    if (isThere) setState(told);
  };
  const found = () => {
    const now = state();
    return now.kind === "found" ? now.value : undefined;
  };
  const failure = () => {
    const now = state();
    return now.kind === "failed" ? fitWords.failed(now.words) : undefined;
  };
  const turn = (on: boolean) => {
    setAlong(on);
    props.onAlong(on ? (found()?.changes ?? []) : []);
  };
  const emptyWords = (left: number) => (left === 0 ? fitWords.wholeNothing : fitWords.wholeNoWay);
  return (
    <details class="fit-fold">
      <summary class="small strong">{fitWords.whole}</summary>
      <p class="small soft">{fitWords.wholeMeaning}</p>
      <Switch>
        <Match when={state().kind === "quiet" || failure()}>
          <Show when={failure()}>
            {(words) => (
              <p class="small soft" role="status">
                {words()}
              </p>
            )}
          </Show>
          <button type="button" class="button small" onClick={() => void seek()}>
            {fitWords.wholeAsk}
          </button>
        </Match>
        <Match when={state().kind === "working"}>
          <p class="small soft" role="status">
            {fitWords.working}
          </p>
        </Match>
        <Match when={state().kind === "gone"}>
          <p class="small soft">{fitWords.gone}</p>
        </Match>
        <Match when={found()}>
          {(mending) => (
            <Show
              when={mending().changes.length > 0}
              fallback={<p class="small">{emptyWords(mending().left)}</p>}
            >
              <ul class="fit-list small">
                <For each={mending().changes}>
                  {(change) => (
                    <li>
                      <span class="lane-sign" data-lane={change.lane} aria-hidden="true" />
                      <span>
                        <span class="soft">{whosePart(desk.session, change.lane)}: </span>
                        {change.words}
                      </span>
                    </li>
                  )}
                </For>
              </ul>
              <Show when={mending().left > 0}>
                <p class="small soft">{fitWords.wholeLeft(mending().left)}</p>
              </Show>
              <label class="fit-tick small">
                <input
                  type="checkbox"
                  checked={isAlong()}
                  onChange={(event) => turn(event.currentTarget.checked)}
                />
                <span>{fitWords.wholeTake}</span>
              </label>
            </Show>
          )}
        </Match>
      </Switch>
    </details>
  );
}
