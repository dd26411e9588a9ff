/** A board in another key: all of it moves, and what can't is pointed out. */

import { decodeGrip } from "@halflap/theory/grip";
import { type Key, parseKey } from "@halflap/theory/key";
import { transpositionBy } from "@halflap/theory/transpose";
import { semitones } from "@halflap/theory/units";
import { describe, expect, test } from "vitest";
import { type BoardCopy, decodeCopy } from "./copy.ts";
import { demoDraft, demoSolution } from "./demo.ts";
import { type Attention, attentionWords, transposeBoard } from "./transpose.ts";

const moved = (copy: BoardCopy, by: number) =>
  transposeBoard(copy, transpositionBy(copy.key, semitones(by)));
const chordsOf = (copy: BoardCopy, section: string) =>
  copy.sections
    .find(({ id }) => id === section)
    ?.bars.map((bar) => bar.slots.map((slot) => slot.chord).join(" "))
    .join(" | ");
const aboutGrips = (attention: readonly Attention[]) =>
  attention.filter(({ kind }) => kind !== "mark" && kind !== "fill");

describe("a board in another key", () => {
  test("has its chords spelled there, as they were typed", () => {
    const { copy } = moved(demoSolution(), 2);
    expect(copy.key).toEqual({ tonic: "G", mode: "major" });
    expect(chordsOf(copy, "chorus")).toBe("C7 | C#dim7 | G7/D | E7 | A7 | D7 | G7 C7 | G7 D7");
  });

  test("keeps everything else, and is a copy that can be read", () => {
    const before = demoDraft();
    for (const by of [-11, -4, 3, 6]) {
      const { copy } = moved(before, by);
      expect(decodeCopy(JSON.parse(JSON.stringify(copy)))).toEqual({ ok: true, value: copy });
      expect(copy.lanes.upper.capo).toBe(before.lanes.upper.capo);
      expect({ ...copy, key: 0, sections: 0, lanes: 0 }).toEqual({
        ...before,
        key: 0,
        sections: 0,
        lanes: 0,
      });
    }
  });

  test("has every grip of the solution along the neck, a minor third up", () => {
    const before = demoSolution();
    const { copy, attention } = moved(before, 3);
    expect(aboutGrips(attention)).toEqual([]);
    const lane = copy.lanes.lower.grips;
    for (const [slot, grip] of Object.entries(before.lanes.lower.grips)) {
      const up = grip.replace(/\d+/g, (fret) => String(Number(fret) + 3));
      expect(lane[slot]).toBe(up);
    }
  });

  test("points out each grip that has no place there, with others for it", () => {
    const { copy, attention } = moved(demoDraft(), -2);
    const replaced = attention.filter((each) => each.kind === "replaced");
    expect(replaced.length).toBeGreaterThan(10);
    for (const each of replaced) {
      const [first] = each.choices;
      const stands = copy.lanes[each.lane].grips[each.slot];
      expect(first).toEqual(decodeGrip(stands ?? ""));
      expect(attentionWords(each)).toMatch(
        /^Bar \d+, (upper|lower) lane: \S+ does not work in this key: \S+ is nearest(; or .+)?\.$/,
      );
    }
  });

  test("asks the players to look at marks that name strings or frets", () => {
    const demo = demoSolution();
    const upper = {
      ...demo.lanes.upper,
      marks: { "verse-1": "slide to fret 8", "verse-2": "soft" },
    };
    const { attention } = moved({ ...demo, lanes: { ...demo.lanes, upper } }, 3);
    const marks = attention.filter((each) => each.kind === "mark");
    expect(marks).toHaveLength(1);
    expect(marks.every((each) => /string|fret/.test(each.text))).toBe(true);
    expect(attentionWords(marks[0] ?? nothing())).toContain("may name other places now");
  });

  test("has its fills along their strings, or as they were where one leaves the neck", () => {
    const before = demoSolution().lanes.lower.fills["verse-fill-8"];
    const up = moved(demoSolution(), 3).copy.lanes.lower.fills["verse-fill-8"];
    expect(up?.notes.map(({ fret }) => fret)).toEqual([5, 3, 4]);
    const { copy, attention } = moved(demoSolution(), -2);
    expect(copy.lanes.lower.fills["verse-fill-8"]).toEqual(before);
    expect(attention).toContainEqual({ kind: "fill", lane: "lower", bar: 12 });
    expect(copy.lanes.lower.chosenFor["verse-1-1"]).toBe("Eb7");
  });

  test("has its melodies sung there", () => {
    const phrase = { bar: "verse-1", start: 0, length: 48 };
    const sung = { ...phrase, melody: [{ start: 0, length: 48, pitch: 60 }] };
    const { copy } = moved({ ...demoSolution(), phrases: { sung } }, 2);
    expect(copy.phrases.sung?.melody[0]?.pitch).toBe(62);
  });

  test("tells everything in the order of the chart", () => {
    const bars = moved(demoDraft(), -2).attention.map(({ bar }) => bar);
    expect(bars).toEqual([...bars].sort((one, other) => one - other));
  });

  test("leaves a text that is no chord, and says so", () => {
    const copy = demoSolution();
    const odd = withChord(copy, "Fq7");
    const { copy: there, attention } = moved(odd, 2);
    expect(chordsOf(there, "verse")).toContain("Fq7");
    const [first] = attention.filter(({ kind }) => kind === "chord");
    expect(attentionWords(first ?? nothing())).toBe(
      "Bar 5: “Fq7” could not be moved and stands as it was.",
    );
  });

  test("moves what is set aside without a word", () => {
    const setAside = {
      bars: [{ id: "old-1", slots: [{ id: "o1", at: 0, chord: "C7" }] }],
      slots: [{ id: "loose", chord: "nonsense" }],
    };
    const { copy, attention } = moved({ ...demoSolution(), setAside }, 2);
    expect(copy.setAside.bars[0]?.slots[0]?.chord).toBe("D7");
    expect(copy.setAside.slots[0]?.chord).toBe("nonsense");
    expect(attention.some(({ kind }) => kind === "chord")).toBe(false);
  });

  test("is the board itself when it goes nowhere", () => {
    const copy = demoDraft();
    const there = moved(copy, 0);
    expect(there.copy).toEqual(copy);
    expect(aboutGrips(there.attention)).toEqual([]);
  });

  test("moved from a key that is not its own is a bug", () => {
    const by = transpositionBy(key("D"), semitones(2));
    expect(() => transposeBoard(demoSolution(), by)).toThrow("its own key");
  });
});

function key(text: string): Key {
  const read = parseKey(text);
  if (!read.ok) throw new Error(`no key: ${text}`);
  return read.value;
}

function nothing(): never {
  throw new Error("nothing needs attention");
}

/** The copy with its first verse chord changed. */
function withChord(copy: BoardCopy, chord: string): BoardCopy {
  return {
    ...copy,
    sections: copy.sections.map((section) =>
      section.id === "verse"
        ? {
            ...section,
            bars: section.bars.map((bar, index) =>
              index === 0 ? { ...bar, slots: bar.slots.map((slot) => ({ ...slot, chord })) } : bar,
            ),
          }
        : section,
    ),
  };
}
