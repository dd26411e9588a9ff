/** Bars and chords taken out of the chart, and what has no room in its bar, waiting to be back. */
import "./SetAsideTray.css";
import type { BarId, SectionId } from "@halflap/board/board";
import { pretty } from "@halflap/theory/display";
import { createSignal, For, Show } from "solid-js";
import { boardWords } from "../words/board.ts";
import { DroppedChords } from "./DroppedChords.tsx";
import { useDesk } from "./desk.ts";
import { WaitingList } from "./WaitingList.tsx";

/**
 * Drawn while something is set aside. A bar comes back at the end of a section: the one being
 * worked on, until another is chosen.
 */
export function SetAsideTray() {
  const desk = useDesk();
  const [chosen, setChosen] = createSignal<SectionId>();
  const aside = () => desk.session.board.setAside;
  // A section that borrows has no bars of its own to add to.
  const homes = () => desk.session.board.sections.filter((each) => each.borrows === undefined);
  const home = () => {
    const here = desk.place()?.bar;
    return (
      homes().find((section) => section.id === chosen()) ??
      homes().find((section) => section.bars.some((bar) => bar.id === here)) ??
      homes().at(-1)
    );
  };
  const chords = (bar: BarId) => pretty(aside().texts.get(bar) || boardWords.nothingWritten);
  const bringBack = (bar: BarId) => {
    const section = home();
    if (!section) return;
    desk.session.chart.bringBackBar(bar, section.id, section.bars.length);
    queueMicrotask(() => desk.goTo({ kind: "chords", bar }));
  };
  return (
    <section class="set-aside" aria-label={boardWords.setAside}>
      <h2 class="strong">{boardWords.setAside}</h2>
      <WaitingList />
      <DroppedChords />
      <Show when={aside().bars.length > 0 && home()}>
        {(section) => (
          <>
            <p class="small soft">{boardWords.setAsideHint}</p>
            <label class="set-aside-home">
              <span class="small">{boardWords.bringBackTo}</span>
              <select
                class="field"
                onChange={(event) => {
                  const id = event.currentTarget.value;
                  setChosen(homes().find((each) => each.id === id)?.id);
                }}
              >
                <For each={homes()}>
                  {(each) => (
                    <option value={each.id} selected={each.id === section().id}>
                      {each.name}
                    </option>
                  )}
                </For>
              </select>
            </label>
            <ul>
              <For each={aside().bars}>
                {(bar) => (
                  <li class="set-aside-bar">
                    <span class="set-aside-chords">{chords(bar)}</span>
                    <button
                      type="button"
                      class="button small"
                      aria-label={boardWords.bringBackBar(chords(bar), section().name)}
                      onClick={() => bringBack(bar)}
                    >
                      {boardWords.bringBack}
                    </button>
                  </li>
                )}
              </For>
            </ul>
          </>
        )}
      </Show>
    </section>
  );
}
