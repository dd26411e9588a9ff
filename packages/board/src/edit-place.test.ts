/** Which changes to a lane still have their place. */
import { fret } from "@halflap/theory/units";
import { expect, test } from "vitest";
import { fillDocuments } from "./copy.ts";
import { demoSolution } from "./demo.ts";
import { emptyDocuments } from "./documents.ts";
import { editsInPlace } from "./edit-place.ts";
import { barId, formEntryId, sectionId, slotId, strumId } from "./ids.ts";
import type { LaneEdit } from "./proposal.ts";
import { makeReader } from "./read.ts";

const documents = emptyDocuments();
fillDocuments(documents, demoSolution());
const board = makeReader(documents)();

const pairs: readonly (readonly [there: LaneEdit, gone: LaneEdit])[] = [
  [
    { kind: "grip", slot: slotId("verse-1-1"), grip: undefined },
    { kind: "grip", slot: slotId("nowhere"), grip: undefined },
  ],
  [
    { kind: "lock", slot: slotId("verse-1-1"), on: true },
    { kind: "lock", slot: slotId("nowhere"), on: true },
  ],
  [
    { kind: "lay-out", bar: barId("solo~verse-1"), rest: true },
    { kind: "lay-out", bar: barId("solo~nowhere"), rest: true },
  ],
  [
    { kind: "rest-pass", entry: formEntryId("form-1"), rest: true },
    { kind: "rest-pass", entry: formEntryId("form-99"), rest: true },
  ],
  [
    { kind: "strum-at", place: { kind: "section", section: sectionId("verse") }, strum: undefined },
    { kind: "strum-at", place: { kind: "section", section: sectionId("gone") }, strum: undefined },
  ],
  [
    { kind: "strum-at", place: { kind: "bar", bar: barId("verse-1") }, strum: undefined },
    { kind: "strum-at", place: { kind: "bar", bar: barId("gone") }, strum: undefined },
  ],
  [
    { kind: "strum-at", place: { kind: "pass", entry: formEntryId("form-2") }, strum: undefined },
    { kind: "strum-at", place: { kind: "pass", entry: formEntryId("gone") }, strum: undefined },
  ],
];

test.each(pairs)("%j stands, %j does not", (there, gone) => {
  expect(editsInPlace(board, [there, gone])).toEqual([there]);
});

test("what belongs to the whole lane always has its place", () => {
  const edits: readonly LaneEdit[] = [
    { kind: "strum-gone", strum: strumId("any") },
    { kind: "capo", capo: fret(2) },
    { kind: "strum-at", place: { kind: "lane" }, strum: undefined },
  ];
  expect(editsInPlace(board, edits)).toEqual(edits);
});
