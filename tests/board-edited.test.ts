/** Trying a change on a Board gives what making it on the documents gives. */
import { laneIds } from "@halflap/board/board";
import { fillDocuments } from "@halflap/board/copy";
import { demoSolution } from "@halflap/board/demo";
import { emptyDocuments, laneDocument } from "@halflap/board/documents";
import { chordOfBoard, editedBoard } from "@halflap/board/edited-board";
import { applyLaneEdits } from "@halflap/board/edits/lane-edits";
import { makeReader } from "@halflap/board/read";
import fc from "fast-check";
import { expect, test } from "vitest";
import { randomEdit } from "./support/random-edits.ts";
import { randomLaneEdit } from "./support/random-lane-edits.ts";
import { seeded } from "./support/seeded.ts";
import { faultsOf } from "./support/valid-board.ts";

function counter(): () => string {
  let count = 0;
  return () => {
    count += 1;
    return `n${count}`;
  };
}

function start(seed: number) {
  const docs = emptyDocuments();
  fillDocuments(docs, demoSolution());
  const [read, chance, makeId] = [makeReader(docs), seeded(seed), counter()];
  for (let i = 0; i < 12; i += 1) randomEdit({ docs, board: read(), chance, makeId });
  return { docs, read, chance, makeId };
}

test("E6 a Board with changes tried is the Board with changes made", () => {
  fc.assert(
    fc.property(fc.integer({ min: 0, max: 1_000_000 }), (seed) => {
      const { docs, read, chance, makeId } = start(seed);
      const lane = chance.pick(laneIds);
      let tried = read();
      for (let round = 0; round < 4; round += 1) {
        const board = read();
        const edits = Array.from({ length: 1 + chance.below(4) }, () =>
          randomLaneEdit({ board, lane, chance, makeId }),
        );
        tried = editedBoard(tried, lane, edits);
        applyLaneEdits(docs[laneDocument(lane)], edits, chordOfBoard(board));
        expect(tried).toEqual(read());
        expect(faultsOf(tried)).toEqual([]);
      }
    }),
    { numRuns: 60 },
  );
});

test("E6 what the changes don't touch is the same object", () => {
  const docs = emptyDocuments();
  fillDocuments(docs, demoSolution());
  const board = makeReader(docs)();
  const [bar] = board.sections[0]?.bars ?? [];
  if (bar === undefined) throw new Error("the demo has bars");
  const tried = editedBoard(board, "upper", [{ kind: "palm-mute", bar: bar.id, on: true }]);
  expect([...tried.lanes.upper.palmMutes]).toContain(bar.id);
  expect(tried.lanes.upper.grips).toBe(board.lanes.upper.grips);
  expect(tried.lanes.upper.fills).toBe(board.lanes.upper.fills);
  expect(tried.lanes.upper.setup).toBe(board.lanes.upper.setup);
  expect(tried.lanes.lower).toBe(board.lanes.lower);
  expect(tried.sections).toBe(board.sections);
  expect(editedBoard(board, "upper", [])).toBe(board);
});
