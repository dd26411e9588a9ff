/** What has to be said about the board above it: a refused change, a closed door, no room. */
import { createSignal, type JSX, Match, Switch } from "solid-js";
import type { Session } from "../session/session.ts";
import { appWords, stateWords } from "../words/app.ts";
import { sessionWords } from "../words/session.ts";
import { TakeIcon } from "./icons.tsx";
import { Strip } from "./Strip.tsx";
import { takeCopy } from "./take-copy.ts";

/** Nothing while all is well. */
export function StateStrips(props: { readonly session: Session }): JSX.Element {
  const refused = () => {
    const state = props.session.state();
    return state.kind === "refused" ? state : undefined;
  };
  const [knowsOfLack, setKnowsOfLack] = createSignal(false);
  const closed = () => {
    const state = props.session.state();
    return state.kind === "closed" ? state : undefined;
  };
  return (
    <Switch>
      <Match when={closed()}>
        {(state) => (
          <Strip label={stateWords.label} words={state().words} tone="trouble">
            <TakeButton onTake={() => takeCopy(props.session.copy())} />
          </Strip>
        )}
      </Match>
      <Match when={refused()}>
        {(state) => (
          <Strip
            label={stateWords.label}
            words={`${state().words} ${stateWords.refusedHint}`}
            tone="trouble"
          >
            <TakeButton onTake={() => takeCopy(state().copy)} />
            <button type="button" class="button" onClick={() => props.session.dismissRefusal()}>
              {appWords.done}
            </button>
          </Strip>
        )}
      </Match>
      <Match when={props.session.state().kind === "store-full"}>
        <Strip label={stateWords.label} words={stateWords.storeFullHint} tone="trouble">
          <TakeButton onTake={() => takeCopy(props.session.copy())} />
        </Strip>
      </Match>
      <Match when={props.session.state().kind === "unreadable"}>
        <Strip label={stateWords.label} words={stateWords.unreadableHint} tone="trouble">
          <TakeButton onTake={() => takeCopy(props.session.copy())} />
        </Strip>
      </Match>
      <Match when={props.session.lacksWork() && !knowsOfLack()}>
        <Strip label={stateWords.label} words={stateWords.lacksWork} tone="trouble">
          <button type="button" class="button" onClick={() => setKnowsOfLack(true)}>
            {appWords.done}
          </button>
        </Strip>
      </Match>
      <Match when={!props.session.isKept()}>
        <Strip label={stateWords.label} words={stateWords.notKeptHint} tone="trouble">
          <TakeButton onTake={() => takeCopy(props.session.copy())} />
        </Strip>
      </Match>
      <Match when={props.session.isNewer()}>
        <Strip label={stateWords.label} words={sessionWords.newer} tone="trouble">
          <button type="button" class="button" onClick={() => location.reload()}>
            {sessionWords.reload}
          </button>
        </Strip>
      </Match>
    </Switch>
  );
}

function TakeButton(props: { readonly onTake: () => void }): JSX.Element {
  return (
    <button type="button" class="button" onClick={() => props.onTake()}>
      <TakeIcon />
      {stateWords.takeCopy}
    </button>
  );
}
