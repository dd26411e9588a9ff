/** Hostile documents: whatever stands wherever in them, they read to a valid Board. */
import { copyOf, decodeCopy, fillDocuments } from "@halflap/board/copy";
import { demoSolution } from "@halflap/board/demo";
import { type BoardDocuments, emptyDocuments } from "@halflap/board/documents";
import { makeReader } from "@halflap/board/read";
import { wishNames } from "@halflap/board/wishes";
import { describe, expect, test } from "vitest";
import * as Y from "yjs";
import { anyType, anything } from "./support/anything.ts";
import { faultsOf } from "./support/valid-board.ts";

function demo(): BoardDocuments {
  const docs = emptyDocuments();
  fillDocuments(docs, demoSolution());
  return docs;
}

/** Ids and names under which something stands in one root or another. */
const keys = [
  ...["intro", "intro-1", "intro-1-1", "form-1", "upper", "x", "mudNote"],
  ...["title", "capo", "strumLane", "countIn", "ending", "blueNotes", "distorted"],
  ...["x-x-3-2-4-x", ...wishNames],
];

test("any type anywhere reads to a Board", () => {
  for (const make of [...anyType, ...anything.map((value) => () => value)]) {
    const docs = demo();
    for (const doc of Object.values(docs)) {
      const hostile = new Y.Doc();
      for (const root of doc.share.keys()) {
        for (const key of keys) hostile.getMap(root).set(key, make());
      }
      Y.applyUpdate(doc, Y.encodeStateAsUpdate(hostile));
    }
    expect(faultsOf(makeReader(docs)())).toEqual([]);
  }
});

const step = { start: 0, length: 24 };
const note = { ...step, string: 2, fret: 8, way: "bend", bend: 1, letRing: false };
const bar = "intro-1";
const fill = { bar, start: 0, length: 96, kind: "fill", together: false, notes: [note] };
const strum = { name: "Eighths", step: 24, feel: "board", palmMute: false, steps: "D.DU" };
const edits = [
  { kind: "strum", id: "x", strum },
  { kind: "fill", id: "x", fill },
];

const takeBars = [{ bar, length: 192 }];
const head = { name: "Riff", bars: takeBars, offsetMs: 0, lengthMs: 100, tempo: 100 };

/** A sound value for every root whose values have fields. */
const sound = {
  board: {
    places: { bar, at: 0 },
    silences: { rule: "R03", bars: [bar], reason: "" },
    voices: { name: "Odd", lane: "upper", type: "alto", low: 48, high: 60 },
    phrases: { bar, start: 0, length: 96, melody: [{ ...step, pitch: 60 }] },
    gapOwners: { bar, at: 0, owner: "open" },
    singers: ["low-guitar", null],
    aims: ["stop"],
    barRounds: [1],
    proposals: { lane: "upper", words: "", bars: [bar], edits },
  },
  lane: { strums: strum, fills: fill },
  talk: { members: { name: "Ada", role: "leader" }, takes: { from: "x", at: 1, head } },
} as const;

/** A value with something else in one place of it, for every place at any depth. */
function bent(value: unknown, other: unknown): readonly unknown[] {
  if (typeof value !== "object" || value === null) return [other];
  return Object.entries(value).flatMap(([name, each]) =>
    bent(each, other).map((wrong) =>
      Array.isArray(value)
        ? value.map((kept, i) => (String(i) === name ? wrong : kept))
        : { ...value, [name]: wrong },
    ),
  );
}

/** Documents in which every root holds that value, bent in every way, under ids of their own. */
function bentDocuments(other: unknown): BoardDocuments {
  const docs = demo();
  const roots = [
    [docs.board, sound.board],
    [docs["lane-upper"], sound.lane],
    [docs.talk, sound.talk],
  ] as const;
  for (const [doc, values] of roots) {
    for (const [root, value] of Object.entries(values)) {
      for (const [i, wrong] of bent(value, other).entries()) {
        doc.getMap(root).set(`x${i}`, wrong);
        doc.getMap(root).set(i === 0 ? "intro-1" : `intro-${i}`, wrong);
      }
    }
  }
  return docs;
}

describe("any value in any field", () => {
  test("reads to a Board, and to a copy that can be read", () => {
    for (const other of anything) {
      const docs = bentDocuments(other);
      expect(faultsOf(makeReader(docs)()), String(other).slice(0, 20)).toEqual([]);
      const copy = decodeCopy(JSON.parse(JSON.stringify(copyOf(docs))));
      expect(copy, String(other).slice(0, 20)).toMatchObject({ ok: true });
    }
  });

  test("the sound values themselves are read", () => {
    const docs = demo();
    for (const [root, value] of Object.entries(sound.board)) {
      docs.board.getMap(root).set("x", value);
    }
    for (const [root, value] of Object.entries(sound.lane)) {
      docs["lane-upper"].getMap(root).set("x", value);
    }
    for (const [root, value] of Object.entries(sound.talk)) docs.talk.getMap(root).set("x", value);
    const board = makeReader(docs)();
    expect(board.takes.map(({ id, from }) => [id, from])).toEqual([["x", "x"]]);
    const named = [
      ...[board.silences, board.voices, board.phrases, board.gapOwners, board.proposals],
    ].map((things) => things.some(({ id }) => id === "x"));
    expect(named).toEqual([true, true, true, true, true]);
    const { upper } = board.lanes;
    expect([...upper.strums.keys(), ...upper.fills.keys()].filter((id) => id === "x")).toHaveLength(
      2,
    );
  });
});
