/** An edit asks again about the proposals that it concerns, and about no others. */
import { fillDocuments } from "@halflap/board/copy";
import { demoDraft } from "@halflap/board/demo";
import { emptyDocuments } from "@halflap/board/documents";
import { moveBar, removeBar, setBarLength, setChord } from "@halflap/board/edits/chart";
import { clearGrip } from "@halflap/board/edits/lane";
import type { LaneEdit } from "@halflap/board/proposal";
import { makeReader } from "@halflap/board/read";
import { ticks } from "@halflap/theory/units";
import { createMemo, createRoot } from "solid-js";
import { expect, test } from "vitest";
import { makeLiveBoard } from "../session/follow.ts";
import { changesOf } from "./changes.ts";

test("a proposal is asked about for what it names; the chart is walked for its bars", () => {
  const documents = emptyDocuments();
  fillDocuments(documents, demoDraft());
  const read = makeReader(documents);
  const live = makeLiveBoard(read());
  const [one, other] = live.board.sections[0]?.bars ?? [];
  const slot = one?.slots[0];
  const far = other?.slots[0];
  if (!one || !other || !slot || !far) throw new Error("the demo has two bars");
  const edits: readonly LaneEdit[] = [{ kind: "grip", slot: slot.id, grip: "x-x-3-2-4-x" }];
  let [asked, walked] = [0, 0];
  const counted = Object.create(live.board, {
    sections: {
      get() {
        walked += 1;
        return live.board.sections;
      },
    },
  });
  const changes = createRoot(() =>
    createMemo(() => {
      asked += 1;
      return changesOf(counted, "lower", edits).map((change) =>
        change.kind === "grip" ? change.where : change.kind,
      );
    }),
  );
  const after = (edit: () => void) => {
    [asked, walked] = [0, 0];
    edit();
    live.follow(read());
    return { said: changes(), asked, walked };
  };
  const doc = documents.board;
  const length = ticks(144);
  expect(after(() => setBarLength(doc, { bar: other.id, length }))).toEqual({
    ...{ said: ["F7, bar 1"], asked: 0, walked: 0 },
  });
  expect(after(() => setChord(doc, { slot: slot.id, chord: "B7" }))).toEqual({
    ...{ said: ["B7, bar 1"], asked: 1, walked: 0 },
  });
  expect(after(() => clearGrip(documents["lane-lower"], far.id))).toEqual({
    ...{ said: ["B7, bar 1"], asked: 1, walked: 0 },
  });
  const section = live.board.sections[0]?.id;
  if (section === undefined) throw new Error("the demo has a section");
  expect(after(() => moveBar(doc, { bar: one.id, section, index: 1 }))).toEqual({
    ...{ said: ["B7, bar 2"], asked: 1, walked: 1 },
  });
  expect(after(() => removeBar(doc, one.id))).toEqual({ said: ["gone"], asked: 1, walked: 1 });
});
