/** Steps from section to section, and from loop to loop, on the demo tune. */
import { expect, test } from "vitest";
import { nextStretch } from "./next-stretch.ts";
import { barAt, bars, board } from "./test-support/rehearsal.ts";

const [first, second] = board.sections;
const last = board.sections.at(-1);
const firstBar = (section = first) => section?.bars[0]?.id;

test("section by section, round the board, without a loop", () => {
  expect(nextStretch(board, undefined, first?.id, 1)).toEqual({
    loop: undefined,
    bar: firstBar(second),
  });
  expect(nextStretch(board, undefined, last?.id, 1)?.bar).toBe(firstBar());
  expect(nextStretch(board, undefined, first?.id, -1)?.bar).toBe(firstBar(last));
  expect(nextStretch(board, undefined, undefined, 1)?.bar).toBe(firstBar());
  expect(nextStretch(board, undefined, undefined, -1)?.bar).toBe(firstBar(last));
  expect(nextStretch({ sections: [] }, undefined, undefined, 1)).toBeUndefined();
});

test("a section that goes round gives way to the next", () => {
  if (!first || !second) throw new Error("no sections");
  const next = nextStretch(board, { kind: "section", section: first.id }, last?.id, 1);
  expect(next).toEqual({ loop: { kind: "section", section: second.id }, bar: firstBar(second) });
});

test("bars that go round move on by their own number, and none is left out at the end", () => {
  const loop = (from: number, to: number) =>
    ({ kind: "bars", from: barAt(from), to: barAt(to) }) as const;
  const end = bars.length - 1;
  expect(nextStretch(board, loop(0, 1), undefined, 1)?.loop).toEqual(loop(2, 3));
  expect(nextStretch(board, loop(2, 3), undefined, -1)?.loop).toEqual(loop(0, 1));
  expect(nextStretch(board, loop(1, 2), undefined, -1)?.loop).toEqual(loop(0, 1));
  expect(nextStretch(board, loop(end - 2, end - 1), undefined, 1)?.loop).toEqual(
    loop(end - 1, end),
  );
  expect(nextStretch(board, loop(end - 1, end), undefined, 1)?.loop).toEqual(loop(0, 1));
  expect(nextStretch(board, loop(0, 1), undefined, -1)?.loop).toEqual(loop(end - 1, end));
});
