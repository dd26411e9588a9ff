/** Chords that were taken out of their bars, with the grips that come back with them. */
import { pretty } from "@halflap/theory/display";
import { createMemo, For, Show } from "solid-js";
import { boardWords } from "../words/board.ts";
import { useDesk } from "./desk.ts";
import { type DroppedChord, droppedChords, homeOf, type SlotHome } from "./slot-home.ts";

/** Nothing while no grip hangs on a chord that is set aside. */
export function DroppedChords() {
  const desk = useDesk();
  const dropped = createMemo(() => droppedChords(desk.session.board));
  const home = (chord: DroppedChord) => homeOf(desk.session.board, chord.was, desk.place()?.bar);
  const words = (chord: DroppedChord) => {
    const bars = desk.session.board.sections.flatMap((section) => section.bars);
    const number = bars.find(({ id }) => id === chord.was?.bar)?.number;
    const name = pretty(chord.text || boardWords.nothingWritten);
    return boardWords.dropped(name, number, chord.lanes);
  };
  const bringBack = (chord: DroppedChord, { bar, at }: SlotHome) => {
    desk.session.chart.bringBackSlot(chord.id, bar.id, at);
    queueMicrotask(() => desk.goTo({ kind: "chords", bar: bar.id }));
  };
  return (
    <Show when={dropped().length > 0}>
      <p class="small soft">{boardWords.droppedHint}</p>
      <ul>
        <For each={dropped()}>
          {(chord) => (
            <li class="set-aside-bar">
              <span class="set-aside-chords">{words(chord)}</span>
              <Show
                when={home(chord)}
                fallback={<span class="small soft">{boardWords.noRoom}</span>}
              >
                {(to) => (
                  <button
                    type="button"
                    class="button small"
                    aria-label={boardWords.bringBackInto(words(chord), to().bar.number)}
                    onClick={() => bringBack(chord, to())}
                  >
                    {boardWords.bringBack}
                  </button>
                )}
              </Show>
            </li>
          )}
        </For>
      </ul>
    </Show>
  );
}
