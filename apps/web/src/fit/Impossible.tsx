/** Wishes that can't hold together: which, where it shows, and a way to let go of each. */
import type { FitResult } from "@halflap/fitter/answer";
import { pretty } from "@halflap/theory/display";
import { For, Show } from "solid-js";
import { useDesk } from "../board/desk.ts";
import { laneInSentence } from "../board/owner.ts";
import { fitWords } from "../words/fit.ts";
import { wishNames } from "../words/wishes.ts";
import type { FitState } from "./create-fitting.ts";
import { placeOfSlot } from "./slot-places.ts";
import { letGo } from "./wish-lines.ts";

/** The wishes are those of the smallest set that can't hold; letting go of one is an edit. */
export function Impossible(props: {
  readonly fit: FitState;
  readonly result: Extract<FitResult, { kind: "impossible" }>;
}) {
  const desk = useDesk();
  const lane = () => props.result.lane;
  const drop = (wish: (typeof props.result.wishes)[number]) => {
    const { wishes } = desk.session.board.lanes[lane()];
    desk.session.lane()?.setWishes(letGo(wishes, wish, props.result.slot));
    // A fit of one lane follows its wishes by itself; this one is asked for by the press.
    if (props.fit.ask().whose === "both") void props.fit.run();
  };
  const place = () => placeOfSlot(desk.session.board.sections, lane(), props.result.slot);
  return (
    <section class="fit-impossible" aria-label={fitWords.impossible}>
      <h3 class="small strong">{fitWords.impossible}</h3>
      <p role="alert">{pretty(props.result.words)}</p>
      <Show
        when={desk.mayWrite(lane())}
        fallback={
          <p class="small soft">{fitWords.theirWishes(laneInSentence(desk.session, lane()))}</p>
        }
      >
        <div class="fit-toggles">
          <For each={props.result.wishes}>
            {(wish) => (
              <button type="button" class="button small" onClick={() => drop(wish)}>
                {fitWords.letGo(wishNames[wish])}
              </button>
            )}
          </For>
        </div>
      </Show>
      <Show when={place()}>
        {(here) => (
          <button type="button" class="button bare small" onClick={() => desk.show(here())}>
            {fitWords.showPlace}
          </button>
        )}
      </Show>
    </section>
  );
}
