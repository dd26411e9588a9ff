/** Marks stand over the beat at which their findings begin, in the columns of their bar. */
import { barId } from "@halflap/board/ids";
import type { Finding, Severity } from "@halflap/checker/finding";
import { ticks } from "@halflap/theory/units";
import { describe, expect, test } from "vitest";
import { markColumns, markPlaces, stretchIn } from "./mark-places.ts";

const [here, next] = [barId("here"), barId("next")];
const bar = { id: here, length: ticks(192) };
const beat = 48;

function finding(id: string, severity: Severity, start: number, isPraise = false): Finding {
  const spans = [
    { bar: here, start: ticks(start), end: ticks(192) },
    { bar: next, start: ticks(0), end: ticks(96) },
  ];
  return { id, severity, isPraise, bars: [here, next], spans } as unknown as Finding;
}

const all = [
  finding("a", "look", 96),
  finding("b", "fix", 0),
  finding("c", "fix", 24),
  finding("d", "stop", 12),
  finding("e", "note", 0, true),
];

describe("the marks of a bar", () => {
  test("stand beat by beat, the gravest first, one a kind, praise last", () => {
    const read = markPlaces(all, bar, beat).map((place) => [
      place.beat,
      place.marks.map((mark) => `${mark.sign} ${mark.findings.length}`),
    ]);
    expect(read).toEqual([
      [0, ["stop 1", "fix 2", "lock 1"]],
      [2, ["look 1"]],
    ]);
  });

  test("a finding that only reaches into the bar has its mark where it begins", () => {
    expect(markPlaces(all, { id: next }, beat)).toEqual([]);
  });

  test("each column is as wide as the time to the next, after the time before the first", () => {
    const places = (...beats: number[]) => beats.map((each) => ({ beat: each, marks: [] }));
    const column = (beats: number) => `minmax(min-content, ${beats}fr)`;
    expect(markColumns(places(0, 2), 4)).toBe(`${column(2)} ${column(2)}`);
    expect(markColumns(places(3), 4)).toBe(`minmax(0, 3fr) ${column(1)}`);
    expect(markColumns([], 4)).toBe("");
  });

  test("the stretch of a finding is told bar by bar", () => {
    expect(stretchIn(all[0], bar)).toEqual({ from: 0.5, to: 1 });
    expect(stretchIn(all[0], { ...bar, id: next })).toEqual({ from: 0, to: 0.5 });
    expect(stretchIn(all[0], { ...bar, id: barId("far") })).toBeUndefined();
    expect(stretchIn(undefined, bar)).toBeUndefined();
  });
});
