/** Reading: every repair of SPEC.md. */

import type { Board } from "@halflap/board/board";
import { fillDocuments } from "@halflap/board/copy";
import { demoSolution } from "@halflap/board/demo";
import { type BoardDocuments, emptyDocuments } from "@halflap/board/documents";
import { barId, slotId } from "@halflap/board/ids";
import { chartLayout, laneLayout } from "@halflap/board/layout";
import { makeReader } from "@halflap/board/read";
import { memberId, setMember, setOwner } from "@halflap/board/talk";
import { describe, expect, test } from "vitest";
import * as Y from "yjs";
import { anything } from "./support/anything.ts";

function demo(): BoardDocuments {
  const docs = emptyDocuments();
  fillDocuments(docs, demoSolution());
  return docs;
}

function changed(change: (chart: ReturnType<typeof chartLayout>) => void): Board {
  const docs = demo();
  change(chartLayout(docs.board));
  return makeReader(docs)();
}

const names = (board: Board) => board.sections.map(({ name }) => name);
const section = (board: Board, id: string) => board.sections.find((each) => each.id === id);
const barsOf = (board: Board, id: string) => section(board, id)?.bars.map((bar) => bar.id) ?? [];
const texts = (board: Board, bar: string) =>
  board.sections
    .flatMap(({ bars }) => bars)
    .find(({ id }) => id === bar)
    ?.slots.map(({ start, text }) => `${start} ${text}`);

test("documents with nothing in them read to an empty Board", () => {
  const board = makeReader(emptyDocuments())();
  expect(board).toMatchObject({ title: "", tempo: 120, sections: [], form: [], members: [] });
  expect(board.key).toEqual({ tonic: "C", mode: "major" });
});

describe("repairs", () => {
  test("B1 reads a broken setting as a new board's", () => {
    for (const value of anything) {
      const board = changed(({ meta }) => {
        for (const name of ["key", "tempo", "meter", "feel"]) meta.set(name, value);
      });
      expect(board.tempo).toBe(120);
      expect(board.meter).toEqual({ beats: 4, unit: 4 });
      expect(board.feel).toBe("straight");
    }
    const board = changed(({ meta }) => meta.set("meter", "33/4"));
    expect(board.meter).toEqual({ beats: 4, unit: 4 });
  });

  test("B2 counts an id once, and only ids", () => {
    const board = changed((chart) => {
      chart.sectionOrder.insert(0, ["tag", 7, null, "no id!"]);
    });
    expect(names(board)).toEqual(["Tag", "Intro", "Verse", "Chorus", "Solo"]);
  });

  test("B3 reads texts on one line and cuts them", () => {
    const board = changed((chart) => {
      chart.meta.set("title", `a\nb\u2028c${"x".repeat(500)}`);
      chart.sectionNames.delete("intro");
      chart.sectionNames.set("verse", `${"x".repeat(59)}😀`);
    });
    expect(board.title).toMatch(/^a b cx+$/);
    expect(board.title).toHaveLength(120);
    expect(names(board)[0]).toBe("Section");
    expect(names(board)[1]).toBe("x".repeat(59));
  });

  test("B4 lets a bar stand in the first section only", () => {
    const board = changed((chart) => {
      const intro = chart.barOrder.get("intro");
      if (intro instanceof Y.Array) intro.push(["verse-1", "verse-1"]);
    });
    expect(barsOf(board, "intro")).toContain("verse-1");
    expect(barsOf(board, "verse")).not.toContain("verse-1");
    expect(board.sections[1]?.bars[0]?.number).toBe(6);
  });

  test("B4 takes the first 64 sections and 512 bars, and sets the other bars aside", () => {
    const board = changed((chart) => {
      const bars = Array.from({ length: 600 }, (_, i) => `more-${i}`);
      for (const bar of bars) {
        chart.chords.set(`${bar}-s`, "C7");
        chart.places.set(`${bar}-s`, { bar, at: 0 });
      }
      chart.barOrder.set("intro", Y.Array.from(bars));
      chart.sectionOrder.push(Array.from({ length: 100 }, (_, i) => `empty-${i}`));
    });
    expect(board.sections).toHaveLength(64);
    expect(board.sections.flatMap(({ bars }) => bars)).toHaveLength(512);
    expect(board.setAside.bars).toContain("more-599");
  });

  test("B5 ignores borrowing from nowhere and in a circle", () => {
    const nowhere = changed(({ borrows }) => borrows.set("solo", "gone"));
    expect(section(nowhere, "solo")).toMatchObject({ borrows: undefined, bars: [] });
    const circle = changed(({ borrows }) => {
      borrows.set("verse", "chorus");
      borrows.set("chorus", "verse");
    });
    expect(barsOf(circle, "verse")[0]).toBe("verse-1");
    expect(barsOf(circle, "solo")[0]).toBe("solo~verse-1");
    const itself = changed(({ borrows }) => borrows.set("verse", "verse"));
    expect(barsOf(itself, "verse")).toHaveLength(8);
  });

  test("B5 follows borrowing to its end", () => {
    const board = changed(({ borrows }) => borrows.set("verse", "chorus"));
    expect(section(board, "solo")?.borrows).toBe("verse");
    expect(barsOf(board, "solo")[0]).toBe("solo~chorus-1");
  });

  test("B6 sets the bars of a borrowing section aside", () => {
    const board = changed(({ borrows }) => borrows.set("tag", "intro"));
    expect(barsOf(board, "tag")[0]).toBe("tag~intro-1");
    expect(board.setAside.bars).toEqual(["tag-1", "tag-2", "tag-3", "tag-4"]);
    expect(board.setAside.texts.get(barId("tag-1"))).toBe("G7");
  });

  test("B7 sets slots without a place aside, and bars that stand nowhere", () => {
    for (const place of anything) {
      const board = changed(({ places }) => places.set("verse-2-2", place));
      expect(board.setAside.slots).toEqual([{ id: "verse-2-2", text: "D7" }]);
    }
    const board = changed(({ places }) => places.set("verse-2-2", { bar: "far", at: 96 }));
    expect(board.setAside.texts).toEqual(new Map([["far", ". D7"]]));
  });

  test("B7 reads a chord that is no text as no chord", () => {
    const board = changed(({ chords }) => chords.set("intro-1-1", new Y.Map()));
    expect(board.sections[0]?.bars[0]?.slots[0]).toMatchObject({ text: "", chord: undefined });
  });

  test("B8 sets aside what lies beyond the bar, and all but the first that start together", () => {
    const board = changed((chart) => {
      chart.chords.set("aaa", "C9");
      chart.places.set("aaa", { bar: "intro-1", at: 0 });
      chart.chords.set("zzz", "C13");
      chart.places.set("zzz", { bar: "intro-1", at: 192 });
    });
    expect(texts(board, "intro-1")).toEqual(["0 C9"]);
    expect(board.setAside.slots).toEqual([
      { id: "intro-1-1", text: "F7", was: { bar: "intro-1", at: 0 } },
      { id: "zzz", text: "C13", was: { bar: "intro-1", at: 192 } },
    ]);
  });

  test("B8 sets aside what a shorter meter leaves no room for, until it has room again", () => {
    const docs = demo();
    const { meta } = chartLayout(docs.board);
    const read = makeReader(docs);
    const before = read();
    meta.set("meter", "2/4");
    expect(read().setAside.slots).toHaveLength(5);
    meta.set("meter", "4/4");
    expect(read()).toEqual(before);
  });

  test("B9 reads a length that no meter writes as the meter's", () => {
    const board = changed(({ barLengths }) => {
      barLengths.set("intro-1", 96);
      for (const [i, length] of [97, 0, 10_000].entries()) barLengths.set(`intro-${i + 2}`, length);
    });
    expect(board.sections[0]?.bars.map(({ length }) => length)).toEqual([96, 192, 192, 192]);
  });

  test("B10 lets the chord before go on where a bar starts without one", () => {
    const board = changed(({ places }) => {
      places.delete("verse-1-1");
      places.set("verse-2-1", { bar: "verse-2", at: 48 });
      places.delete("verse-3-1");
    });
    expect(texts(board, "verse-1")).toEqual(["0 N.C."]);
    expect(texts(board, "verse-2")).toEqual(["0 N.C.", "48 F7", "96 D7"]);
    expect(texts(board, "verse-3")).toEqual(["0 D7"]);
    expect(section(board, "verse")?.bars[2]?.slots[0]?.id).toBe("~verse-3");
    expect(section(board, "solo")?.bars[2]?.slots[0]?.id).toBe("solo~~verse-3");
  });

  test("B11 leaves out form entries of no section, and plays all in turn without any", () => {
    const board = changed(({ form }) => {
      form.insert(0, [
        { id: "form-1", section: "tag", times: 99 },
        3,
        { id: "x", section: "gone" },
      ]);
    });
    expect(board.form[0]).toEqual({ id: "form-1", section: "tag", times: 1, singers: [] });
    expect(board.form).toHaveLength(8);
    const none = changed(({ form }) => form.delete(0, form.length));
    expect(none.form.map(({ id }) => id)).toEqual(["~intro", "~verse", "~chorus", "~solo", "~tag"]);
  });

  test("B12 leaves out silences of nothing", () => {
    const board = changed(({ silences }) => {
      silences.set("b", { rule: "R03", bars: ["solo~verse-1", 3], reason: "we like it" });
      silences.set("a", { rule: "R03", bars: [], reason: "" });
      silences.set("c", "R03");
    });
    const kept = { id: "b", rule: "R03", bars: ["solo~verse-1"], reason: "we like it" };
    expect(board.silences).toEqual([kept]);
  });

  test("B13 reads a broken setup as a plain guitar's", () => {
    for (const value of anything) {
      const docs = demo();
      const { meta } = laneLayout(docs["lane-upper"]);
      for (const name of ["tuning", "capo", "fretsFrom", "lastFret", "scaleLength"]) {
        meta.set(name, value);
      }
      const { setup } = makeReader(docs)().lanes.upper;
      expect(setup).toEqual(makeReader(demo())().lanes.upper.setup);
    }
  });

  test("B14 leaves out grips, lay-outs and marks that can't be read", () => {
    for (const value of [...anything, "x-x-x-x-x-x", "3-2-0-0-0-99", "320003"]) {
      const docs = demo();
      const { grips, layOuts, marks } = laneLayout(docs["lane-upper"]);
      grips.set("tag-1-1", value);
      if (value !== true) layOuts.set("tag-1", value);
      if (typeof value !== "string" || value === "") marks.set("tag-4", value);
      const { upper } = makeReader(docs)().lanes;
      expect(upper.grips.has(slotId("tag-1-1"))).toBe(false);
      expect(upper.layOuts.size).toBe(0);
      expect([...upper.marks.values()].every((mark) => mark !== "")).toBe(true);
    }
  });

  test("B15 keeps a lane's entries for what stands nowhere, after those that stand", () => {
    const docs = demo();
    const { grips } = laneLayout(docs["lane-lower"]);
    grips.set("aaa", "x-x-3-2-4-x");
    grips.set("no id!", "x-x-3-2-4-x");
    const { lower } = makeReader(docs)().lanes;
    expect([...lower.grips.keys()].at(0)).toBe("intro-1-1");
    expect([...lower.grips.keys()].at(-1)).toBe("aaa");
  });

  test("B16 knows members by name and role, and owners by membership", () => {
    const docs = demo();
    setMember(docs.talk, { id: memberId("m2"), name: "Ilse", role: "player" });
    setMember(docs.talk, { id: memberId("m1"), name: "Rune", role: "listener" });
    setMember(docs.talk, { id: memberId("m3"), name: "Odd", role: "leader" });
    docs.talk.getMap("members").set("m4", { name: 3, role: "player" });
    setOwner(docs.talk, "upper", memberId("m2"));
    setOwner(docs.talk, "lower", memberId("m1"));
    const board = makeReader(docs)();
    expect(board.members.map(({ name }) => name)).toEqual(["Odd", "Ilse", "Rune"]);
    expect(board.lanes.upper.owner).toBe("m2");
    expect(board.lanes.lower.owner).toBeUndefined();
  });
});
