/** Boards for tests from a chart text, with what both lanes play laid on it in chart order. */
import type { Board, LaneId, SlotId } from "@halflap/board/board";
import { draftCopy, parseChartText } from "@halflap/board/chart-text";
import { fillDocuments } from "@halflap/board/copy";
import { emptyDocuments } from "@halflap/board/documents";
import { editedBoard } from "@halflap/board/edited-board";
import { type BarId, fillId, strumId } from "@halflap/board/ids";
import type { Fill, FillNote, Strum } from "@halflap/board/playing";
import type { LaneEdit } from "@halflap/board/proposal";
import { makeReader } from "@halflap/board/read";
import { parseStrumText } from "@halflap/board/strum-text";
import { stringNumbers } from "@halflap/theory/tuning";
import { assert, fret, ticks } from "@halflap/theory/units";

/** The board of a chart text, nothing played yet; "| F7 |" stands for a section A of one bar. */
export function charted(text: string): Board {
  const whole = text.startsWith("|") ? `A tune\nF, 100\n\nA\n${text}` : text;
  const { draft, problems } = parseChartText(whole);
  assert(draft !== undefined && problems.length === 0, `no chart: ${text}`);
  const documents = emptyDocuments();
  let count = 0;
  fillDocuments(
    documents,
    draftCopy(draft, () => {
      count += 1;
      return `n${count}`;
    }),
  );
  return makeReader(documents)();
}

/** The bar of a number, counted through the chart from 1. */
export function barOf(board: Board, number: number): BarId {
  const bar = board.sections.flatMap(({ bars }) => bars).find((each) => each.number === number);
  assert(bar !== undefined, "no such bar", number);
  return bar.id;
}

/** All slots in chart order. */
export function slotsOf(board: Board): readonly SlotId[] {
  return board.sections.flatMap(({ bars }) =>
    bars.flatMap(({ slots }) => slots.map(({ id }) => id)),
  );
}

/** The board with grips in chart order, "-" for none, in the lower lane unless named. */
export function gripped(board: Board, grips: string, lane: LaneId = "lower"): Board {
  const edits = grips.split(" ").flatMap((grip, index): readonly LaneEdit[] => {
    const slot = slotsOf(board)[index];
    assert(slot !== undefined, "a slot for each grip", index);
    return grip === "-" ? [] : [{ kind: "grip", slot, grip }];
  });
  return editedBoard(board, lane, edits);
}

/** A pattern as typed, in eighths unless said otherwise. */
export function pattern(text: string, more: Partial<Strum> = {}): Strum {
  const steps = parseStrumText(text);
  assert(steps.ok, `no pattern: ${text}`);
  return {
    id: strumId(
      `p${text.length}-${[...text].map((sign) => sign.charCodeAt(0)).join("")}`.slice(0, 60),
    ),
    name: text,
    step: ticks(24),
    feel: "board",
    palmMute: false,
    steps: steps.value,
    ...more,
  };
}

/** The board with a pattern through the whole of a lane. */
export function strummed(board: Board, strum: Strum, lane: LaneId = "lower"): Board {
  return editedBoard(board, lane, [
    { kind: "strum", strum },
    { kind: "strum-at", place: { kind: "lane" }, strum: strum.id },
  ]);
}

/** A note of a fill: start and length in ticks, "2:10" is string 2, fret 10. */
export function fillNote(
  start: number,
  length: number,
  place: string,
  more: Partial<FillNote> = {},
): FillNote {
  const [typed, played] = place.split(":").map(Number);
  const string = stringNumbers.find((number) => number === typed);
  assert(string !== undefined && played !== undefined, `no place: ${place}`);
  const at = { start: ticks(start), length: ticks(length), string, fret: fret(played) };
  return { ...at, way: "pluck", bend: 0, letRing: false, ...more };
}

/** The board with a fill from a place of a bar. */
export function filled(
  board: Board,
  place: { readonly bar: number; readonly start: number; readonly length: number },
  notes: readonly FillNote[],
  lane: LaneId = "lower",
): Board {
  const fill: Fill = {
    id: fillId(`fill-${place.bar}-${place.start}`),
    bar: barOf(board, place.bar),
    start: ticks(place.start),
    length: ticks(place.length),
    kind: "fill",
    together: false,
    notes,
  };
  return editedBoard(board, lane, [{ kind: "fill", fill }]);
}
