/** Tells a screen reader what the other player changed, at most once in three seconds. */
import { type LaneId, laneIds } from "@halflap/board/board";
import { createEffect, createSignal, onCleanup } from "solid-js";
import { boardWords } from "../words/board.ts";
import { changedBars, type LaneContent } from "./changed-bars.ts";
import { useDesk } from "./desk.ts";
import { laneOwner } from "./owner.ts";

const pauseMs = 3000;
const barsNamedMax = 3;

/** A polite live region; empty until something happens. */
export function RemoteNews() {
  const desk = useDesk();
  const [news, setNews] = createSignal("");
  const waiting = new Map<LaneId, Set<number>>();
  let timer: ReturnType<typeof setTimeout> | undefined;

  const tell = () => {
    timer = undefined;
    const sentences = [...waiting].map(([lane, bars]) =>
      boardWords.changed(
        laneOwner(desk.session, lane)?.name ?? boardWords.someone,
        barsInWords([...bars].sort((a, b) => a - b)),
      ),
    );
    waiting.clear();
    setNews(sentences.join(". "));
  };
  const hear = (lane: LaneId, bars: readonly number[]) => {
    if (bars.length === 0 || desk.session.ownLane() === lane) return;
    const known = waiting.get(lane) ?? new Set();
    for (const bar of bars) known.add(bar);
    waiting.set(lane, known);
    timer ??= setTimeout(tell, pauseMs);
  };
  for (const lane of laneIds) {
    createEffect<LaneContent | undefined>((before) => {
      const { grips, layOuts, marks } = desk.session.board.lanes[lane];
      const after = { grips, layOuts, marks };
      if (before) hear(lane, changedBars(before, after, desk.session.board.sections));
      return after;
    }, undefined);
  }
  onCleanup(() => clearTimeout(timer));
  return (
    <div class="spoken" role="status">
      {news()}
    </div>
  );
}

function barsInWords(bars: readonly number[]): string {
  if (bars.length > barsNamedMax) return boardWords.severalBars(bars.length);
  return bars.map((bar) => boardWords.bar(bar).toLowerCase()).join(", ");
}
