/**
 * How the board is laid out at the moment: lines for the width there is, and one pitch scale for
 * all.
 */
import { type Lane, laneIds, type Section } from "@halflap/board/board";
import { gripPitches } from "@halflap/theory/grip";
import type { MidiNote } from "@halflap/theory/units";
import { createMemo, createSignal, onCleanup } from "solid-js";
import { figurePitches } from "../seam/figure-notes.ts";
import { fittedScale, type PitchScale, sameScale, steadyScale } from "../seam/pitch-scale.ts";
import type { Desk } from "./desk.ts";
import { barsInLine, gutterWidth, linesOf } from "./lines.ts";
import type { Preview } from "./preview.ts";
import { barsInPrintedLine, createPrinted } from "./printing.ts";

/** `measure` takes the element whose width the lines fill. */
export function createBoardLayout({ session, preview }: Pick<Desk, "session" | "preview">) {
  const { board } = session;
  const [width, setWidth] = createSignal(0);
  const watcher = new ResizeObserver(([entry]) => setWidth(entry?.contentRect.width ?? 0));
  onCleanup(() => watcher.disconnect());

  const isPrinted = createPrinted();

  const perLine = (section: Section) => {
    const slotsMax = Math.max(1, ...section.bars.map((bar) => bar.slots.length));
    if (isPrinted()) return barsInPrintedLine(slotsMax);
    return barsInLine(width() - gutterWidth(width()), slotsMax);
  };
  const lines = createMemo(() =>
    board.sections.flatMap((section) => linesOf([...section.bars], perLine(section))),
  );
  const ends = laneIds.map((lane) => createEnds(() => board.lanes[lane]));
  // What is only looked at is drawn too, and may lie beyond all that stands there.
  const tried = createMemo(() => triedEnds(preview()));
  const scale = createMemo<PitchScale, PitchScale | undefined>(
    (drawn) => steadyScale(drawn, fittedScale([...ends.flatMap((end) => end()), ...tried()])),
    undefined,
    { equals: sameScale },
  );
  const measure = (element: HTMLElement) => {
    setWidth(element.clientWidth);
    watcher.observe(element);
  };
  return { measure, perLine, lines, scale, isPrinted };
}

/** The lowest and the highest pitch that a lane holds, and those that its figures play. */
function createEnds(lane: () => Lane): () => readonly MidiNote[] {
  // Most slots of a board hold one of a few grips, and the same grip is the same object.
  const held = createMemo(() => {
    const { grips, setup } = lane();
    return endsOf([...new Set(grips.values())].flatMap((grip) => [...gripPitches(grip, setup)]));
  });
  const played = createMemo(() => endsOf(figurePitches(lane())));
  return () => [...held(), ...played()];
}

/** The lowest and the highest pitch of the would-be grips. */
function triedEnds(preview: Preview = {}): readonly MidiNote[] {
  const lanes = Object.values(preview);
  const pitches = lanes.flatMap(({ grips, setup }) =>
    [...new Set(grips.values())].flatMap((grip) => [...gripPitches(grip, setup)]),
  );
  return endsOf(pitches);
}

function endsOf(pitches: readonly MidiNote[]): readonly MidiNote[] {
  const ascending = [...pitches].sort((a, b) => a - b);
  return [...ascending.slice(0, 1), ...ascending.slice(-1)];
}
