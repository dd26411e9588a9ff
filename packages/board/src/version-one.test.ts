/** What version 1 wrote, copies and documents, is lifted to version 2 with nothing lost. */
import { expect, test } from "vitest";
import * as Y from "yjs";
import { copyOf, decodeCopy, fillDocuments } from "./copy.ts";
import { type BoardDocuments, documentNames, emptyDocuments } from "./documents.ts";
import { plainPlaying } from "./lane-copy.ts";
import { chartLayout, laneLayout } from "./layout.ts";
import { migrateDocument } from "./migrate.ts";
import { makeReader } from "./read.ts";
import { plainSong, unsaidSettings } from "./song-shape.ts";

/** A copy as version 1 wrote it, with everything that it knew. */
const versionOne = `{
  "format": "halflap-board", "version": 1,
  "title": "Salt on the Stairs", "key": { "tonic": "G", "mode": "minor" }, "tempo": 92.5,
  "meter": { "beats": 3, "unit": 4 }, "feel": "shuffle", "hasBass": false,
  "sections": [
    { "id": "vamp", "name": "Vamp", "bars": [
      { "id": "v1", "slots": [
        { "id": "s1", "at": 0, "chord": "Gm7" }, { "id": "s2", "at": 96, "chord": "D7" }
      ] },
      { "id": "v2", "length": 96, "slots": [{ "id": "s3", "at": 0, "chord": "Ebmaj7" }] }
    ] },
    { "id": "out", "name": "Out", "borrows": "vamp", "bars": [
      { "id": "o1", "slots": [{ "id": "s4", "at": 0, "chord": "Cm6" }] }
    ] }
  ],
  "form": [
    { "id": "f1", "section": "vamp", "times": 4 }, { "id": "f2", "section": "out", "times": 1 }
  ],
  "silences": [{ "id": "q1", "rule": "R03", "bars": ["out~v1"], "reason": "on purpose" }],
  "setAside": {
    "bars": [{ "id": "b9", "slots": [{ "id": "s9", "at": 0, "chord": "F7" }] }],
    "slots": [{ "id": "s8", "chord": "Bb6" }]
  },
  "lanes": {
    "upper": {
      "tuning": [40, 45, 50, 55, 59, 64], "capo": 3, "fretsFrom": "capo", "lastFret": 22,
      "scaleLength": 628, "grips": { "s1": "x-x-3-2-4-x", "out~s1": "x-x-x-7-8-6" },
      "layOuts": ["v2"], "marks": { "v1": "quietly" }
    },
    "lower": {
      "tuning": [38, 45, 50, 55, 59, 64], "capo": 0, "fretsFrom": "nut", "lastFret": 24,
      "scaleLength": 648, "grips": { "~v2": "3-x-3-3-x-x" }, "layOuts": [], "marks": {}
    }
  }
}`;

function decoded() {
  const copy = decodeCopy(JSON.parse(versionOne));
  if (!copy.ok) throw new Error(`${copy.error.path} ${copy.error.words}`);
  return copy.value;
}

test("a copy of version 1 comes in whole, with nothing played, sung or proposed", () => {
  const { version, lanes, ...written } = JSON.parse(versionOne);
  expect(version).toBe(1);
  expect(decoded()).toEqual({
    ...written,
    ...plainSong(),
    ...unsaidSettings,
    version: 2,
    lanes: {
      upper: { ...lanes.upper, ...plainPlaying() },
      lower: { ...lanes.lower, ...plainPlaying() },
    },
  });
  const docs = emptyDocuments();
  fillDocuments(docs, decoded());
  expect(copyOf(docs)).toEqual(decoded());
  expect(makeReader(docs)()).toMatchObject({ title: "Salt on the Stairs", countIn: 1, voices: [] });
});

test.each([
  [`"tempo": 92.5,`, `"tempo": 9,`, "tempo"],
  [`"times": 4`, `"times": 0`, "form[0].times"],
  [`"x-x-3-2-4-x"`, `"x-x"`, "lanes.upper.grips.s1"],
  [`"version": 1`, `"version": 1, "colour": "red"`, "colour"],
])("a copy of version 1 with %s as %s is refused where it is wrong", (right, wrong, path) => {
  const copy = decodeCopy(JSON.parse(versionOne.replace(right, wrong)));
  expect(copy.ok ? "fine" : copy.error.path).toBe(path);
});

/** Documents as version 1 left them: what it knew, under its own number. */
function olderDocuments(): BoardDocuments {
  const docs = emptyDocuments();
  fillDocuments(docs, decoded());
  const { meta } = chartLayout(docs.board);
  for (const name of ["countIn", "ending", "blueNotes", "distorted"]) meta.delete(name);
  meta.set("schema", 1);
  for (const name of ["lane-upper", "lane-lower"] as const) {
    laneLayout(docs[name]).meta.set("schema", 1);
  }
  return docs;
}

function lift(docs: BoardDocuments): readonly string[] {
  const lanes = (["lane-upper", "lane-lower"] as const).map((name) =>
    migrateDocument(docs[name], "lane"),
  );
  return [migrateDocument(docs.board, "board"), ...lanes];
}

test("documents of version 1 that two peers lift at once become the same, and say the same", () => {
  const one = olderDocuments();
  const two = emptyDocuments();
  for (const name of documentNames) Y.applyUpdate(two[name], Y.encodeStateAsUpdate(one[name]));
  const before = makeReader(one)();
  expect([lift(one), lift(two)]).toEqual([
    ["migrated", "migrated", "migrated"],
    ["migrated", "migrated", "migrated"],
  ]);
  for (const name of documentNames) {
    const [left, right] = [one[name], two[name]].map((doc) => Y.encodeStateAsUpdate(doc));
    if (left === undefined || right === undefined) throw new Error("two updates");
    Y.applyUpdate(one[name], right);
    Y.applyUpdate(two[name], left);
    expect(Y.equalSnapshots(Y.snapshot(one[name]), Y.snapshot(two[name])), name).toBe(true);
  }
  expect(chartLayout(one.board).meta.get("schema")).toBe(2);
  expect(chartLayout(two.board).meta.toJSON()).toEqual(chartLayout(one.board).meta.toJSON());
  expect(makeReader(one)()).toEqual(before);
  expect(makeReader(two)()).toEqual(before);
  expect(copyOf(two)).toEqual(decoded());
  expect(lift(one)).toEqual(["current", "current", "current"]);
});
