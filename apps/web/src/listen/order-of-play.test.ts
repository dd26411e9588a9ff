/** Which bars are heard when, and which of them a loop means, on the demo tune. */
import { fillDocuments } from "@halflap/board/copy";
import { demoSolution } from "@halflap/board/demo";
import { emptyDocuments } from "@halflap/board/documents";
import { makeReader } from "@halflap/board/read";
import { timelineOf } from "@halflap/timeline/passages";
import { expect, test } from "vitest";
import { indexOfBar, orderOfPlay, sameMoment, stretchOf } from "./order-of-play.ts";

const documents = emptyDocuments();
fillDocuments(documents, demoSolution());
const board = makeReader(documents)();
const timeline = timelineOf(board);
const bars = orderOfPlay(timeline);

/** Intro 4, verse and chorus 8 each, verse, chorus, solo, chorus, tag 4. */
const sectionNamed = (name: string) => {
  const section = board.sections.find((each) => each.name === name);
  if (!section) throw new Error(`no section ${name}`);
  return section;
};
const barOf = (name: string, index: number) => {
  const bar = sectionNamed(name).bars[index];
  if (!bar) throw new Error(`no bar ${index} in ${name}`);
  return bar.id;
};

test("the bars follow each other without a gap to the end of the tune", () => {
  expect(bars).toHaveLength(4 + 8 + 8 + 8 + 8 + 8 + 8 + 4);
  let end = 0;
  for (const { start, length } of bars) {
    expect(start).toBe(end);
    end = start + length;
  }
  expect(end).toBe(timeline.length);
});

test("strokes lie inside their bar and come in order, once each", () => {
  for (const { strokes } of bars) {
    for (const lane of [strokes.upper, strokes.lower]) {
      expect([...lane]).toEqual([...new Set(lane)].sort((a, b) => a - b));
    }
  }
  expect(bars.some(({ strokes }) => strokes.upper.length > 2)).toBe(true);
});

test("without a wish the whole tune is played once", () => {
  expect(stretchOf(bars, undefined, 7)).toEqual({ first: 0, last: 55, loops: false });
  expect(stretchOf([], undefined, 0)).toBeUndefined();
});

test.each([
  [0, 4],
  [6, 4],
  [12, 20],
  [22, 20],
  [50, 4],
])("near bar %i of play the verse goes round from %i", (near, first) => {
  const loop = { kind: "section", section: sectionNamed("Verse").id } as const;
  expect(stretchOf(bars, loop, near)).toEqual({ first, last: first + 7, loops: true });
});

test("bar to bar runs on over sections, and never backwards", () => {
  const loop = (from: ReturnType<typeof barOf>, to: typeof from) =>
    ({ kind: "bars", from, to }) as const;
  const over = loop(barOf("Intro", 3), barOf("Verse", 1));
  expect(stretchOf(bars, over, 0)).toEqual({ first: 3, last: 5, loops: true });
  const back = loop(barOf("Tag", 0), barOf("Intro", 0));
  expect(stretchOf(bars, back, 0)).toBeUndefined();
});

test("a bar is found at or after where one is, else where it comes first", () => {
  expect(indexOfBar(bars, barOf("Verse", 2), 7)).toBe(22);
  expect(indexOfBar(bars, barOf("Verse", 2), 40)).toBe(6);
  expect(indexOfBar(bars, undefined, 0)).toBeUndefined();
});

test("after an edit the same time through the same bar is found, or its place", () => {
  const without = bars.slice(4);
  expect(sameMoment(without, bars[22], 22)).toBe(18);
  expect(sameMoment(without, bars[1], 1)).toBe(1);
  expect(sameMoment(bars.slice(0, 3), bars[22], 22)).toBe(2);
});
