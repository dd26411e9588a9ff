/** Reading what is played, and what has no room in its bar: the repairs B17 to B19 and B25. */
import type { Board } from "@halflap/board/board";
import { copyOf, fillDocuments } from "@halflap/board/copy";
import { demoSolution } from "@halflap/board/demo";
import { type BoardDocuments, emptyDocuments } from "@halflap/board/documents";
import { barId, fillId, formEntryId, sectionId, slotId, strumId } from "@halflap/board/ids";
import { chartLayout, laneLayout } from "@halflap/board/layout";
import { makeReader } from "@halflap/board/read";
import { describe, expect, test } from "vitest";
import { anything } from "./support/anything.ts";
import { faultsOf } from "./support/valid-board.ts";

type Lane = ReturnType<typeof laneLayout>;

function demo(): BoardDocuments {
  const docs = emptyDocuments();
  fillDocuments(docs, demoSolution());
  return docs;
}

/** The upper lane of the demo after a change to its document. */
function playing(change: (lane: Lane) => void): Board["lanes"]["upper"] {
  const docs = demo();
  change(laneLayout(docs["lane-upper"]));
  return makeReader(docs)().lanes.upper;
}

const strum = { name: "Eighths", step: 24, feel: "board", palmMute: false, steps: "D.DU.UDU" };
const note = { start: 0, length: 24, string: 2, fret: 8, way: "pluck", bend: 0, letRing: false };
const fill = { bar: "tag-1", start: 96, length: 96, kind: "fill", together: false, notes: [note] };
const phrase = { bar: "tag-1", start: 0, length: 96, melody: [] };

/** What is left of a fill's notes: their starts and strings. */
function notesOf(notes: readonly unknown[]): readonly string[] | undefined {
  const { fills } = playing(({ fills }) => fills.set("f", { ...fill, notes }));
  return fills.get(fillId("f"))?.notes.map(({ start, string }) => `${start} ${string}`);
}

describe("B17", () => {
  test("B17 leaves out a pattern without readable steps or with a step of no known length", () => {
    const unread = { a: { steps: "D.Q" }, b: { steps: "" }, c: { steps: 3 }, d: { step: 25 } };
    const { strums } = playing((lane) => {
      for (const [id, change] of Object.entries(unread))
        lane.strums.set(id, { ...strum, ...change });
      lane.strums.set("no id!", strum);
      lane.strums.set("e", { ...strum, name: "two\nlines", feel: "waltz", palmMute: 1 });
    });
    const added = [...strums.keys()].filter((id) => id.length === 1);
    expect(added).toEqual(["e"]);
    expect(strums.get(strumId("e"))).toMatchObject({ name: "two lines", feel: "board" });
    expect(strums.get(strumId("e"))?.palmMute).toBe(false);
  });

  test("B17 a place that names a pattern not in the library has none", () => {
    const { strumming } = playing((lane) => {
      lane.strums.set("e", strum);
      lane.meta.set("strumLane", "gone");
      lane.strumSections.set("intro", "e");
      lane.strumSections.set("tag", "gone");
      lane.strumBars.set("tag-1", 7);
      lane.strumBars.set("tag-2", "e");
      lane.strumPasses.set("form-1", "e");
      lane.strumPasses.set("form-2", "gone");
    });
    expect(strumming.lane).toBeUndefined();
    expect(strumming.sections.get(sectionId("intro"))).toBe("e");
    expect(strumming.sections.has(sectionId("tag"))).toBe(false);
    expect(strumming.bars.has(barId("tag-1"))).toBe(false);
    expect(strumming.bars.get(barId("tag-2"))).toBe("e");
    expect([...strumming.passes]).toEqual([["form-1", "e"]]);
  });
});

describe("B18", () => {
  test("B18 leaves out a fill without bar or length", () => {
    const broken = [{ bar: "no id!" }, { bar: 3 }, { length: 0 }, { length: 0.5 }, { start: -1 }];
    for (const change of broken) {
      expect(
        playing(({ fills }) => fills.set("f", { ...fill, ...change })).fills.has(fillId("f")),
      ).toBe(false);
    }
    const { fills } = playing(({ fills }) => fills.set("f", { ...fill, kind: "solo", notes: 3 }));
    expect(fills.get(fillId("f"))).toMatchObject({ kind: "fill", notes: [], together: false });
  });

  test("B18 leaves out notes off the guitar and outside the fill", () => {
    const off = [{ string: 7 }, { fret: 25 }, { way: "tap" }, { start: 73 }, { length: 97 }];
    expect(notesOf([note, ...off.map((change) => ({ ...note, string: 1, ...change }))])).toEqual([
      "0 2",
    ]);
  });

  test("B18 a bend goes up by half to four semitones, and nothing else does", () => {
    const bend = (by: unknown) => notesOf([{ ...note, way: "bend", bend: by }]);
    expect([0, 0.25, 4.5, "1"].map(bend)).toEqual([[], [], [], []]);
    expect([0.5, 4].map(bend)).toEqual([["0 2"], ["0 2"]]);
    const { fills } = playing(({ fills }) => {
      fills.set("f", { ...fill, notes: [{ ...note, bend: 2 }] });
    });
    expect(fills.get(fillId("f"))?.notes[0]?.bend).toBe(0);
  });

  test("B18 of two notes at once on a string the first counts; by start, then by string", () => {
    const notes = [
      { ...note, start: 24, string: 1 },
      { ...note, start: 12 },
      { ...note, start: 24, string: 5 },
      note,
    ];
    expect(notesOf(notes)).toEqual(["0 2", "24 5", "24 1"]);
  });
});

describe("B19", () => {
  test("B19 leaves out dynamics, mutes, rings and resting passes that can't be read", () => {
    for (const value of anything) {
      const lane = playing(({ dynamics, palmMutes, letRings, restingPasses }) => {
        dynamics.set("tag-1", value);
        if (value === true) return;
        palmMutes.set("tag-1", value);
        letRings.set("tag-1", value);
        restingPasses.set("form-1", value);
      });
      expect(lane.dynamics.has(barId("tag-1"))).toBe(false);
      expect(lane.palmMutes.has(barId("tag-1"))).toBe(false);
      expect(lane.letRings.has(barId("tag-1"))).toBe(false);
      expect(lane.restingPasses.has(formEntryId("form-1"))).toBe(false);
    }
    const said = playing(({ dynamics, palmMutes }) => {
      dynamics.set("tag-1", "mf");
      palmMutes.set("tag-1", true);
    });
    expect(said.dynamics.get(barId("tag-1"))).toBe("mf");
    expect(said.palmMutes.has(barId("tag-1"))).toBe(true);
  });

  test("B19 leaves out the chord of a grip that is not there or can't be read", () => {
    const slot = slotId("verse-1-1");
    const { chosenFor } = playing((lane) => {
      lane.chosenFor.set("gone", "C7");
      lane.chosenFor.set("verse-2-1", "");
      lane.grips.set(slot, "x-x-x-x-x-x");
    });
    expect(chosenFor.has(slotId("gone"))).toBe(false);
    expect(chosenFor.has(slotId("verse-2-1"))).toBe(false);
    expect(chosenFor.has(slot)).toBe(false);
    expect(playing(() => undefined).chosenFor.get(slot)).toBe("F7");
  });
});

describe("B25", () => {
  test("B25 what starts beyond its bar waits, and is back once there is room", () => {
    const docs = demo();
    const chart = chartLayout(docs.board);
    laneLayout(docs["lane-lower"]).fills.set("f", fill);
    chart.phrases.set("p", { ...phrase, start: 144 });
    chart.gapOwners.set("g", { bar: "tag-1", at: 191, owner: "open" });
    const read = makeReader(docs);
    const [before, copied] = [read(), copyOf(docs)];
    expect(before.lanes.lower.fills.has(fillId("f"))).toBe(true);
    chart.barLengths.set("tag-1", 96);
    const short = read();
    expect(short.lanes.lower.fills.has(fillId("f"))).toBe(false);
    expect(short.phrases.some(({ id }) => id === "p")).toBe(false);
    expect(short.gapOwners.some(({ id }) => id === "g")).toBe(false);
    expect(faultsOf(short)).toEqual([]);
    expect(short.setAside.waiting).toEqual([
      { kind: "fill", id: "f", lane: "lower", bar: "tag-1", start: 96 },
      { kind: "phrase", id: "p", bar: "tag-1", start: 144 },
      { kind: "gap", id: "g", bar: "tag-1", start: 191 },
    ]);
    expect(copyOf(docs)).toMatchObject({
      phrases: copied.phrases,
      gapOwners: copied.gapOwners,
      lanes: { lower: { fills: copied.lanes.lower.fills } },
    });
    chart.barLengths.delete("tag-1");
    expect(read()).toEqual(before);
  });
});
