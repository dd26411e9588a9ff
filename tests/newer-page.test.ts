/**
 * Pages of two versions at one board: what the newer one stored is still there after anything that
 * the older one does, and what the older one did is there for the newer.
 */
import { copyOf, fillDocuments } from "@halflap/board/copy";
import { demoSolution } from "@halflap/board/demo";
import { type BoardDocuments, documentNames, emptyDocuments } from "@halflap/board/documents";
import { chartLayout, laneLayout } from "@halflap/board/layout";
import { isNewer } from "@halflap/board/migrate";
import { makeReader } from "@halflap/board/read";
import { expect, test } from "vitest";
import * as Y from "yjs";
import { allNotes, markedNotes, newerIn, writeNewer } from "./support/newer-page.ts";
import { randomEdit } from "./support/random-edits.ts";
import { seeded } from "./support/seeded.ts";

const seeds = 40;
const editsEach = 60;

/** What was marked before, is there still, and has lost its mark. */
function lostBetween(before: ReadonlyMap<string, string>, after: ReadonlyMap<string, string>) {
  return [...before].filter(([place, mark]) => {
    const now = after.get(place);
    return mark !== "bare" && now !== undefined && now !== mark;
  });
}

function notesLost(before: ReadonlySet<string>, docs: BoardDocuments) {
  const [standing, marked] = [allNotes(docs), markedNotes(docs)];
  return [...before].filter((note) => standing.has(note) && !marked.has(note));
}

function meet(one: BoardDocuments, other: BoardDocuments): void {
  for (const name of documentNames) {
    Y.applyUpdate(one[name], Y.encodeStateAsUpdate(other[name]), "network");
    Y.applyUpdate(other[name], Y.encodeStateAsUpdate(one[name]), "network");
  }
}

function open() {
  const [newer, older] = [emptyDocuments(), emptyDocuments()];
  fillDocuments(newer, demoSolution());
  writeNewer(newer);
  meet(newer, older);
  return { newer, older };
}

test.each(Array.from({ length: seeds }, (_, seed) => seed))("no edit loses it, seed %i", (seed) => {
  const chance = seeded(seed);
  const { newer, older } = open();
  let ids = 0;
  const makeId = () => {
    ids += 1;
    return `n${ids}`;
  };
  const read = makeReader(older);
  for (let edit = 0; edit < editsEach; edit += 1) {
    const [before, notes] = [newerIn(older), markedNotes(older)];
    randomEdit({ docs: older, board: read(), chance, makeId });
    expect(lostBetween(before, newerIn(older))).toEqual([]);
    expect(notesLost(notes, older)).toEqual([]);
    if (chance.happens(0.1)) {
      writeNewer(newer);
      meet(newer, older);
    }
  }
  meet(newer, older);
  expect(copyOf(newer)).toEqual(copyOf(older));
  expect(newerIn(newer)).toEqual(newerIn(older));
});

test("the newer page's mark on its layout stays, and the older one says that it is newer", () => {
  const { newer, older } = open();
  chartLayout(newer.board).meta.set("schema", 99);
  meet(newer, older);
  const chance = seeded(1);
  const read = makeReader(older);
  for (let edit = 0; edit < editsEach; edit += 1) {
    randomEdit({ docs: older, board: read(), chance, makeId: () => `m${edit}` });
  }
  expect(chartLayout(older.board).meta.get("schema")).toBe(99);
  expect(isNewer(older)).toBe(true);
});

test("an edit that writes only what it knows is caught", () => {
  const { older } = open();
  const [before, notes] = [newerIn(older), markedNotes(older)];
  const { voices } = chartLayout(older.board);
  const { fills } = laneLayout(older["lane-upper"]);
  const [[voice], [fill]] = [[...voices.keys()], [...fills.keys()]];
  if (voice === undefined || fill === undefined)
    throw new Error("the demo has a singer and a fill");
  voices.set(voice, { name: "Somebody" });
  const { later: _later, notes: played, ...said } = Object(fills.get(fill));
  const plain = played.map(({ later: _mark, ...note }: { later?: string }) => note);
  fills.set(fill, { ...said, notes: plain });
  expect(lostBetween(before, newerIn(older)).length).toBe(2);
  expect(notesLost(notes, older).length).toBeGreaterThan(0);
});
