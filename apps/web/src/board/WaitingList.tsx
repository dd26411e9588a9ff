/** What starts beyond the end of its bar, with the ways to make room for it or to let it go. */
import type { Waiting } from "@halflap/board/board";
import { barLengthHolding, barLengthOf, beatOf } from "@halflap/board/meter";
import { createMemo, For, Show } from "solid-js";
import { beatName } from "../playing/beat-name.ts";
import { boardWords } from "../words/board.ts";
import { useDesk } from "./desk.ts";

/** Nothing while nothing waits; a fill is removed by whoever owns its lane. */
export function WaitingList() {
  const desk = useDesk();
  const waiting = () => desk.session.board.setAside.waiting;
  const meter = () => desk.session.board.meter;
  const numbers = createMemo(() => {
    const bars = desk.session.board.sections.flatMap((section) => section.bars);
    return new Map(bars.map(({ id, number }) => [id, number]));
  });
  const what = (thing: Waiting) =>
    thing.kind === "fill" || thing.kind === "line"
      ? boardWords.waiting[thing.kind](thing.lane)
      : boardWords.waiting[thing.kind];
  const words = (thing: Waiting) => {
    const beat = beatName(thing.start, beatOf(meter()));
    return boardWords.waitingOn(what(thing), numbers().get(thing.bar) ?? 0, beat);
  };
  const room = (thing: Waiting) => barLengthHolding(thing.start, meter());
  // What was pressed is gone afterwards: the bar concerned is where one goes on.
  const goToBar = ({ bar }: Waiting) => queueMicrotask(() => desk.goTo({ kind: "chords", bar }));
  const makeRoom = (thing: Waiting) => {
    const length = room(thing);
    const isUsual = length === barLengthOf(meter());
    desk.session.chart.setBarLength(thing.bar, isUsual ? undefined : length);
    goToBar(thing);
  };
  const mayRemove = (thing: Waiting) => !("lane" in thing) || desk.mayWrite(thing.lane);
  const removeNow = (thing: Waiting) => {
    switch (thing.kind) {
      case "phrase":
        return desk.session.singing.rewritePhrases([], [thing.id]);
      case "gap":
        return desk.session.singing.setGapOwner({ bar: thing.bar, at: thing.start }, undefined);
      default:
        return desk.session.lane()?.edit([{ kind: "fill-gone", fill: thing.id }]);
    }
  };
  const remove = (thing: Waiting) => {
    removeNow(thing);
    goToBar(thing);
  };
  return (
    <Show when={waiting().length > 0}>
      <p class="small soft">{boardWords.waitingHint}</p>
      <ul>
        <For each={waiting()}>
          {(thing) => (
            <li class="set-aside-bar">
              <span class="set-aside-chords">{words(thing)}</span>
              <Show when={room(thing)}>
                <button
                  type="button"
                  class="button small"
                  aria-label={boardWords.makeRoomFor(words(thing))}
                  onClick={() => makeRoom(thing)}
                >
                  {boardWords.makeRoom}
                </button>
              </Show>
              <Show when={mayRemove(thing)}>
                <button
                  type="button"
                  class="button small"
                  aria-label={boardWords.removeWaitingOf(words(thing))}
                  onClick={() => remove(thing)}
                >
                  {boardWords.removeWaiting}
                </button>
              </Show>
            </li>
          )}
        </For>
      </ul>
    </Show>
  );
}
