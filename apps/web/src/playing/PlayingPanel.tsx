/**
 * Strum pattern, fills and marks of one lane in one bar: beside the board where there is room, a
 * sheet from below on a phone.
 */
import "./PlayingPanel.css";
import type { BarId, LaneId } from "@halflap/board/board";
import { createEffect, createSignal, Match, on, Show, Switch } from "solid-js";
import { useDesk } from "../board/desk.ts";
import { ReadOnlyWords } from "../neck/ReadOnlyWords.tsx";
import { BarPart } from "./BarPart.tsx";
import { createPlaying } from "./create-playing.ts";
import { FillPart } from "./FillPart.tsx";
import { PanelHead } from "./PanelHead.tsx";
import { PartTabs, type PlayingPart } from "./PartTabs.tsx";
import { StrumPart } from "./StrumPart.tsx";
import { stripId } from "./strip-id.ts";

/** Read-only on a lane that is not one's own. */
export function PlayingPanel(props: { readonly lane: LaneId; readonly bar: BarId }) {
  const desk = useDesk();
  const playing = createPlaying(
    desk,
    () => props.lane,
    () => props.bar,
  );
  const [part, setPart] = createSignal<PlayingPart>("strum");
  let panel: HTMLElement | undefined;
  createEffect(
    on([() => props.lane, () => props.bar], () => {
      // The keys follow whoever opens the panel from the board, and stay where they are inside it.
      if (panel?.contains(document.activeElement)) return;
      const tab = panel?.querySelector<HTMLElement>("[role=tab][aria-selected=true]");
      tab?.focus({ preventScroll: true });
      document.querySelector(".board-side")?.scrollTo({ top: 0 });
    }),
  );
  createEffect(
    on([() => props.lane, () => props.bar], ([lane, bar]) => {
      // Once the page has made room for the sheet, which it does around this panel.
      requestAnimationFrame(() => {
        document.getElementById(stripId(lane, bar))?.scrollIntoView({ block: "nearest" });
      });
    }),
  );
  return (
    <section
      ref={panel}
      class="side-panel playing-panel"
      data-lane={props.lane}
      aria-labelledby="playing-title"
    >
      <PanelHead playing={playing} />
      <Show when={!playing.mayWrite()}>
        <ReadOnlyWords lane={props.lane} />
      </Show>
      <PartTabs chosen={part()} onChoose={setPart} />
      <div id="playing-part" role="tabpanel" aria-labelledby={`playing-tab-${part()}`}>
        <Switch>
          <Match when={part() === "strum"}>
            <StrumPart playing={playing} />
          </Match>
          <Match when={part() === "fill"}>
            <FillPart playing={playing} />
          </Match>
          <Match when={part() === "bar"}>
            <BarPart playing={playing} />
          </Match>
        </Switch>
      </div>
    </section>
  );
}
