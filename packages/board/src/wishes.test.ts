/** A lane's wishes: read, edited and copied. */
import { decodeGrip, type Grip } from "@halflap/theory/grip";
import { fret, midiNote } from "@halflap/theory/units";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import * as Y from "yjs";
import type { Board } from "./board.ts";
import { copyOf, decodeCopy, fillDocuments } from "./copy.ts";
import { demoSolution } from "./demo.ts";
import { emptyDocuments, ownEdit } from "./documents.ts";
import { setWishes } from "./edits/wishes.ts";
import { slotId } from "./ids.ts";
import { laneLayout } from "./layout.ts";
import { makeReader } from "./read.ts";
import { type LaneWishes, usualWishes, wishNames } from "./wishes.ts";

function demo() {
  const docs = emptyDocuments();
  fillDocuments(docs, demoSolution());
  return { docs, lane: laneLayout(docs["lane-upper"]), read: makeReader(docs) };
}

/** The wishes of the upper lane when its document says this under `wishes`. */
function read(stored: Readonly<Record<string, unknown>>): LaneWishes {
  const { lane, read } = demo();
  for (const [name, value] of Object.entries(stored)) lane.wishes.set(name, value);
  return read().lanes.upper.wishes;
}

function grip(text: string): Grip {
  const found = decodeGrip(text);
  if (found === undefined) throw new Error(`no grip: ${text}`);
  return found;
}

const asked: LaneWishes = {
  leaveAsIs: true,
  lowest: midiNote(50),
  highest: midiNote(76),
  stringSets: [
    [4, 3, 2],
    [5, 3, 2],
  ],
  stringsMin: 3,
  stringsMax: 5,
  lowestFret: fret(2),
  highestFret: fret(9),
  capo: fret(3),
  rootless: false,
  openStrings: false,
  keepTop: true,
  liked: [grip("x-x-3-2-4-x")],
  never: [grip("1-3-3-2-1-1")],
  locked: new Set([slotId("verse-1-1"), slotId("solo~verse-1-1")]),
};

test("every wish has a name, once", () => {
  expect([...wishNames].sort()).toEqual(Object.keys(usualWishes).sort());
});

describe("B26", () => {
  test("a lane that says nothing has the usual wishes", () => {
    expect(read({})).toEqual(usualWishes);
  });

  test("a wish that can't be used is the usual one", () => {
    const broken = {
      ...{ leaveAsIs: 1, lowest: 128, highest: -1, stringSets: "4-3-2", stringsMin: 0 },
      ...{ stringsMax: 7, lowestFret: 1.5, highestFret: 25, capo: 13, rootless: "no" },
      ...{ openStrings: null, keepTop: "true" },
    };
    expect(read(broken)).toEqual(usualWishes);
  });

  test("what is no set of strings is left out, and each set counts once", () => {
    const stringSets = ["4-3-2", "2-3-4", "4-4", "", "7", 432, "4-3-2", "6"];
    expect(read({ stringSets }).stringSets).toEqual([[4, 3, 2], [6]]);
  });
});

test.each([
  ["lowest", "highest", 61, 60],
  ["lowestFret", "highestFret", 6, 5],
  ["stringsMin", "stringsMax", 4, 3],
])("B27 %s above %s leaves both as usual", (low, high, least, most) => {
  expect(read({ [low]: least, [high]: most, keepTop: true })).toEqual({
    ...usualWishes,
    keepTop: true,
  });
  expect(read({ [low]: most, [high]: most })).toMatchObject({ [low]: most, [high]: most });
});

test("B28 grips are read by their text, slots in the chart's order; the rest is left out", () => {
  const { lane, read } = demo();
  for (const text of ["x-x-3-2-4-x", "1-3-3-2-1-1", "x-x-x-x-x-x", "no grip"]) {
    lane.likedGrips.set(text, true);
  }
  lane.neverGrips.set("x-x-3-2-4-x", "true");
  for (const slot of ["verse-2-1", "gone", "verse-1-1", "no id!"]) lane.lockedSlots.set(slot, true);
  const { liked, never, locked } = read().lanes.upper.wishes;
  expect(liked).toEqual([grip("1-3-3-2-1-1"), grip("x-x-3-2-4-x")]);
  expect(never).toEqual([]);
  expect([...locked]).toEqual(["verse-1-1", "verse-2-1", "gone"]);
});

describe("setting wishes", () => {
  test("says all of them, and takes them back", () => {
    const { docs, lane, read } = demo();
    const before = read();
    setWishes(docs["lane-upper"], asked);
    expect(read().lanes.upper.wishes).toEqual(asked);
    expect(read().lanes.lower).toBe(before.lanes.lower);
    expect(read().lanes.upper.grips).toBe(before.lanes.upper.grips);
    setWishes(docs["lane-upper"], usualWishes);
    expect(read()).toEqual(before);
    expect(lane.wishes.size + lane.likedGrips.size + lane.lockedSlots.size).toBe(0);
  });

  test("leaves the wishes that are not named", () => {
    const { docs, read } = demo();
    setWishes(docs["lane-upper"], asked);
    setWishes(docs["lane-upper"], { highest: undefined, keepTop: false, liked: [] });
    const changed = { highest: undefined, keepTop: false, liked: [] };
    expect(read().lanes.upper.wishes).toEqual({ ...asked, ...changed });
  });

  test("in two places at once both stand, also in one wish for several grips", () => {
    const { docs, read } = demo();
    const other = new Y.Doc();
    Y.applyUpdate(other, Y.encodeStateAsUpdate(docs["lane-upper"]));
    setWishes(docs["lane-upper"], { highest: midiNote(70), never: [grip("x-x-3-2-4-x")] });
    setWishes(other, { rootless: true, never: [grip("1-3-3-2-1-1")] });
    Y.applyUpdate(docs["lane-upper"], Y.encodeStateAsUpdate(other));
    expect(read().lanes.upper.wishes).toMatchObject({ highest: 70, rootless: true });
    expect(read().lanes.upper.wishes.never).toHaveLength(2);
  });

  test("is one step, and none where nothing changes", () => {
    const { docs } = demo();
    const steps: unknown[] = [];
    docs["lane-upper"].on("update", (_, origin) => steps.push(origin));
    setWishes(docs["lane-upper"], asked);
    setWishes(docs["lane-upper"], asked);
    setWishes(docs["lane-upper"], { keepTop: true });
    expect(steps).toEqual([ownEdit]);
  });

  test("bounds the wrong way round are a bug", () => {
    const { docs } = demo();
    setWishes(docs["lane-upper"], { highest: midiNote(60) });
    expect(() => setWishes(docs["lane-upper"], { lowest: midiNote(61) })).toThrow(/stored/);
  });
});

describe("the copy", () => {
  const wishes = fc.record<Partial<LaneWishes>>(
    {
      leaveAsIs: fc.boolean(),
      lowest: fc.option(fc.integer({ min: 30, max: 60 }).map(midiNote), { nil: undefined }),
      highest: fc.option(fc.integer({ min: 60, max: 90 }).map(midiNote), { nil: undefined }),
      stringSets: fc.constantFrom<LaneWishes["stringSets"]>([], [[4, 3]], [[6], [3, 2, 1]]),
      stringsMin: fc.integer({ min: 1, max: 3 }),
      stringsMax: fc.integer({ min: 3, max: 6 }),
      lowestFret: fc.option(fc.integer({ min: 0, max: 5 }).map(fret), { nil: undefined }),
      highestFret: fc.option(fc.integer({ min: 5, max: 24 }).map(fret), { nil: undefined }),
      capo: fc.option(fc.integer({ min: 0, max: 12 }).map(fret), { nil: undefined }),
      rootless: fc.option(fc.boolean(), { nil: undefined }),
      openStrings: fc.boolean(),
      keepTop: fc.boolean(),
      liked: fc.constantFrom<readonly Grip[]>([], asked.liked),
      never: fc.constantFrom<readonly Grip[]>([], asked.never),
      locked: fc.constantFrom(new Set<never>(), asked.locked),
    },
    { requiredKeys: [] },
  );

  test("holds every wish there and back", () => {
    fc.assert(
      fc.property(wishes, (change) => {
        const { docs, read } = demo();
        setWishes(docs["lane-upper"], change);
        const copy = decodeCopy(JSON.parse(JSON.stringify(copyOf(docs))));
        if (!copy.ok) throw new Error(`${copy.error.path} ${copy.error.words}`);
        const filled = emptyDocuments();
        fillDocuments(filled, copy.value);
        const board: Board = makeReader(filled)();
        expect(board.lanes.upper.wishes).toEqual({ ...usualWishes, ...change });
        expect(board.lanes.upper.wishes).toEqual(read().lanes.upper.wishes);
      }),
      { numRuns: 60 },
    );
  });

  test("leaves out what is usual", () => {
    const { docs } = demo();
    expect(copyOf(docs).lanes.upper).not.toHaveProperty("wishes");
    setWishes(docs["lane-upper"], { openStrings: false, stringsMax: 4, stringSets: [[4, 3, 2]] });
    expect(copyOf(docs).lanes.upper.wishes).toEqual({ openStrings: false, stringSets: ["4-3-2"] });
  });

  test.each([
    [{ lowest: 128 }, "lowest: must be a whole number from 0 to 127"],
    [{ lowest: 61, highest: 60 }, "lowest: must not be above highest, 60"],
    [{ stringsMin: 5 }, "stringsMin: must not be above stringsMax, 4"],
    [{ stringSets: ["2-3-4"] }, "stringSets[0]: must be strings, lowest first: 4-3-2"],
    [{ never: ["x-x"] }, "never[0]: must be a grip, low string first: x-x-3-2-4-x"],
    [{ locked: ["no id!"] }, "locked[0]: must be the id of a bar or slot"],
    [{ capo: 13 }, "capo: must be a whole number from 0 to 12"],
    [{ liked: Array(257).fill("x-x-3-2-4-x") }, "liked: holds more than 256"],
    [{ louder: true }, "louder: is not known here"],
  ])("refuses %j", (wrong, words) => {
    const demo = demoSolution();
    const upper = { ...demo.lanes.upper, wishes: wrong };
    const read = decodeCopy(structuredClone({ ...demo, lanes: { ...demo.lanes, upper } }));
    const said = read.ok ? "" : `${read.error.path}: ${read.error.words}`;
    expect(said).toBe(`lanes.upper.wishes.${words}`);
  });
});
