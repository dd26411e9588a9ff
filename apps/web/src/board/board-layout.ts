/**
 * How the board is laid out at the moment: lines for the width there is, and one pitch scale for
 * all.
 */
import { type LaneId, laneIds, type Section } from "@halflap/board/board";
import { gripPitches } from "@halflap/theory/grip";
import { createMemo, createSignal, onCleanup } from "solid-js";
import { figurePitches } from "../seam/figure-notes.ts";
import { fittedScale, sameScale } from "../seam/pitch-scale.ts";
import type { Session } from "../session/session.ts";
import { barsInLine, gutterWidth, linesOf } from "./lines.ts";

/** `measure` takes the element whose width the lines fill. */
export function createBoardLayout(session: Session) {
  const { board } = session;
  const [width, setWidth] = createSignal(0);
  const watcher = new ResizeObserver(([entry]) => setWidth(entry?.contentRect.width ?? 0));
  onCleanup(() => watcher.disconnect());

  const perLine = (section: Section) => {
    const slotsMax = Math.max(1, ...section.bars.map((bar) => bar.slots.length));
    return barsInLine(width() - gutterWidth(width()), slotsMax);
  };
  const lines = createMemo(() =>
    board.sections.flatMap((section) => linesOf([...section.bars], perLine(section))),
  );
  const pitchesOf = (lane: LaneId) => {
    const { grips, setup } = board.lanes[lane];
    const held = [...grips.values()].flatMap((grip) => [...gripPitches(grip, setup)]);
    return [...held, ...figurePitches(board.lanes[lane])];
  };
  const scale = createMemo(() => fittedScale(laneIds.flatMap(pitchesOf)), undefined, {
    equals: sameScale,
  });
  const measure = (element: HTMLElement) => {
    setWidth(element.clientWidth);
    watcher.observe(element);
  };
  return { measure, perLine, lines, scale };
}
