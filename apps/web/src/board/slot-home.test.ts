/** Which chords wait with grips, and where each can stand again. */
import type { Bar, Board, LaneId } from "@halflap/board/board";
import { fillDocuments } from "@halflap/board/copy";
import { demoDraft } from "@halflap/board/demo";
import { emptyDocuments, laneDocument } from "@halflap/board/documents";
import { clearGrip } from "@halflap/board/edits/lane";
import { barId, ownSlot } from "@halflap/board/ids";
import { makeOwnUndo } from "@halflap/board/own-undo";
import { makeReader } from "@halflap/board/read";
import { expect, test } from "vitest";
import { makeChartIntents } from "../session/chart-intents.ts";
import { droppedChords, homeOf } from "./slot-home.ts";

/** A bar of two chords, both with grips of both lanes, and the chart's commands. */
function open() {
  const documents = emptyDocuments();
  fillDocuments(documents, demoDraft());
  const read = makeReader(documents);
  const intents = makeChartIntents(
    () => documents.board,
    read,
    () => true,
  );
  const { upper, lower } = read().lanes;
  const isHeldByBoth = ({ slots }: Bar) =>
    slots.length === 2 && slots.every(({ id }) => upper.grips.has(id) && lower.grips.has(id));
  const bars = (board: Board) => board.sections.flatMap((section) => section.bars);
  const bar = bars(read()).find(isHeldByBoth);
  const [stays, goes] = bar?.slots ?? [];
  if (!bar || !stays || !goes) throw new Error("the demo has a bar of two chords");
  const now = () => bars(read()).find(({ id }) => id === bar.id);
  return { documents, read, intents, bar, stays, goes, now };
}

test("a chord that the other wrote out of its bar is back in one step, with its grips", () => {
  const { documents, read, intents, bar, stays, goes, now } = open();
  const lanes = read().lanes;
  intents.writeBar(bar, stays.text);
  const [dropped, ...others] = droppedChords(read());
  expect(dropped).toMatchObject({ id: goes.id, text: goes.text, lanes: ["upper", "lower"] });
  expect(others).toEqual([]);
  const home = homeOf(read(), dropped?.was, undefined);
  expect(home).toMatchObject({ bar: { id: bar.id }, at: goes.start });
  const undo = makeOwnUndo();
  undo.follow(documents.board);
  intents.bringBackSlot(goes.id, bar.id, goes.start);
  expect(now()).toEqual(bar);
  expect(read().lanes).toEqual(lanes);
  expect(droppedChords(read())).toEqual([]);
  undo.undo();
  expect(droppedChords(read())).toMatchObject([{ id: goes.id, was: dropped?.was }]);
});

test("a chord on which no grip hangs is not listed, and one of one lane is that lane's", () => {
  const { documents, read, intents, bar, stays, goes } = open();
  intents.writeBar(bar, stays.text);
  // A section that borrows the chord has a grip of its own on it.
  const clear = (lane: LaneId) => {
    for (const id of read().lanes[lane].grips.keys())
      if (ownSlot(id) === goes.id) clearGrip(documents[laneDocument(lane)], id);
  };
  clear("upper");
  expect(droppedChords(read())).toMatchObject([{ id: goes.id, lanes: ["lower"] }]);
  clear("lower");
  expect(droppedChords(read())).toEqual([]);
});

test("where another chord starts at its place it stands on a free beat, and else nowhere", () => {
  const { read, intents, bar, stays, now } = open();
  const [at, beat] = [0, 48];
  const home = (
    was: { readonly bar: Bar["id"]; readonly at: number } | undefined,
    here?: Bar["id"],
  ) => homeOf(read(), was, here);
  expect(home({ bar: bar.id, at })?.at).toBe(beat);
  intents.setBarLength(bar.id, undefined);
  expect(home({ bar: bar.id, at: 960 })?.at).toBe(beat);
  expect(home(undefined)).toBeUndefined();
  expect(home(undefined, bar.id)).toMatchObject({ bar: { id: bar.id }, at: beat });
  expect(home({ bar: barId("gone"), at: 24 }, bar.id)?.at).toBe(beat);
  const full = now();
  if (!full) throw new Error("the bar stands");
  intents.writeBar(full, `${stays.text} A7 B7 E7`);
  expect(home({ bar: bar.id, at })).toBeUndefined();
});
