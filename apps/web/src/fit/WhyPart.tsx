/** Why this grip: for the slot one stands on, the next best grips and what they would cost more. */
import type { Answer } from "@halflap/fitter/answer";
import type { NextBest } from "@halflap/fitter/why";
import { pretty } from "@halflap/theory/display";
import { createEffect, createMemo, createSignal, For, on, onCleanup, Show } from "solid-js";
import { useDesk } from "../board/desk.ts";
import { GripDiagram } from "../neck/GripDiagram.tsx";
import { fitWords } from "../words/fit.ts";
import type { FitState } from "./create-fitting.ts";
import type { Told } from "./fitting.ts";
import { placeOfBar, slotWithBar } from "./slot-places.ts";

/** As many as are read at a glance. */
const nextMost = 4;

type State = { readonly kind: "working" } | Told<readonly NextBest[]>;

/** Asks while it is unfolded, and again wherever one stands. */
export function WhyPart(props: { readonly fit: FitState; readonly answer: Answer }) {
  const desk = useDesk();
  const [isUnfolded, setUnfolded] = createSignal(false);
  const [state, setState] = createSignal<State>({ kind: "working" });
  const at = createMemo(() => {
    const place = desk.slotPlace();
    const part = props.answer.parts.find(({ lane }) => lane === place?.lane);
    if (place === undefined || !part?.grips.has(place.slot)) return undefined;
    const found = slotWithBar(desk.session.board.sections, place.slot);
    return found && { lane: part.lane, ...found };
  });
  createEffect(
    on([isUnfolded, at], ([unfolded, here]) => {
      if (!unfolded || here === undefined) return;
      let isAwaited = true;
      onCleanup(() => {
        isAwaited = false;
      });
      const where = { lane: here.lane, slot: here.slot.id, most: nextMost };
      setState({ kind: "working" });
      void props.fit.why(props.answer.id, where).then((told) => {
        if (isAwaited) setState(told);
      });
    }),
  );
  const found = () => {
    const now = state();
    return now.kind === "found" ? now.value : undefined;
  };
  const said = () => {
    const now = state();
    if (now.kind === "failed") return fitWords.whyFailed(now.words);
    return now.kind === "gone" ? fitWords.gone : fitWords.working;
  };
  return (
    <details class="fit-fold" onToggle={(event) => setUnfolded(event.currentTarget.open)}>
      <summary class="small strong">{fitWords.why}</summary>
      <Show when={at()} fallback={<p class="small soft">{fitWords.whyWhere}</p>}>
        {(here) => (
          <>
            <p class="small strong">
              {pretty(fitWords.whyAt(here().slot.text, here().bar.number))}
            </p>
            <Show
              when={found()}
              fallback={
                <p class="small soft" role="status">
                  {said()}
                </p>
              }
            >
              {(next) => (
                <ol class="fit-next">
                  <For each={next()} fallback={<li class="small soft">{fitWords.whyNone}</li>}>
                    {(other) => <OtherGrip other={other} lane={here().lane} />}
                  </For>
                </ol>
              )}
            </Show>
          </>
        )}
      </Show>
    </details>
  );
}

function OtherGrip(props: { readonly other: NextBest; readonly lane: "upper" | "lower" }) {
  const desk = useDesk();
  const setup = () => desk.triedSetup(props.lane) ?? desk.session.board.lanes[props.lane].setup;
  const bars = () =>
    props.other.bars.flatMap(
      ({ bar }) => placeOfBar(desk.session.board.sections, props.lane, bar) ?? [],
    );
  return (
    <li class="fit-other">
      <GripDiagram grip={props.other.grip} setup={setup()} lane={props.lane} />
      <div>
        <p class="small">{pretty(props.other.words)}</p>
        <div class="fit-toggles">
          <For each={bars().slice(0, 3)}>
            {({ place, number }) => (
              <button
                type="button"
                class="link small"
                aria-label={fitWords.goTo(number)}
                onClick={() => desk.show(place)}
              >
                {fitWords.bar(number)}
              </button>
            )}
          </For>
        </div>
      </div>
    </li>
  );
}
