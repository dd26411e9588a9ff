/** Bars that were taken out of the chart, waiting to be brought back. */
import "./SetAsideTray.css";
import type { BarId } from "@halflap/board/board";
import { For, Show } from "solid-js";
import { boardWords } from "../words/board.ts";
import { useDesk } from "./desk.ts";

/**
 * Nothing while nothing is set aside. A bar comes back at the end of the section being worked on.
 */
export function SetAsideTray() {
  const desk = useDesk();
  const bars = () => desk.session.board.setAside.bars;
  const home = () => {
    const { sections } = desk.session.board;
    const here = desk.place()?.bar;
    return (
      sections.find((section) => section.bars.some((bar) => bar.id === here)) ?? sections.at(-1)
    );
  };
  const bringBack = (bar: BarId) => {
    const section = home();
    if (section) desk.session.chart.bringBackBar(bar, section.id, section.bars.length);
  };
  return (
    <Show when={bars().length > 0 && desk.session.mayEditChart()}>
      <section class="set-aside" aria-label={boardWords.setAside}>
        <h2 class="strong">{boardWords.setAside}</h2>
        <p class="small soft">{boardWords.setAsideHint}</p>
        <ul>
          <For each={bars()}>
            {(bar, index) => (
              <li>
                <button
                  type="button"
                  class="button small"
                  disabled={home() === undefined}
                  onClick={() => bringBack(bar)}
                >
                  {boardWords.bringBackBar(index() + 1, home()?.name ?? "")}
                </button>
              </li>
            )}
          </For>
        </ul>
      </section>
    </Show>
  );
}
