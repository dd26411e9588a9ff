/** What the fretting hand holds: strokes of one grip together, notes of a line one by one. */
import { expect, test } from "vitest";
import { holdsOf } from "./holds.ts";
import { bars, type SmallBoard, smallBoard } from "./test-support/small-board.ts";
import { preparedBoard } from "./tune.ts";

function holds(small: Partial<SmallBoard>) {
  const sections = small.sections ?? bars(["C", "-", "x-3-2-0-1-0"], ["F", "-", "1-3-3-2-1-1"]);
  const { passages, tune } = preparedBoard(smallBoard({ sections, ...small }));
  const [bar] = passages[0]?.bars ?? [];
  return bar === undefined ? [] : holdsOf(bar.played.lanes.lower, tune.setups.lower);
}

const when = (small: Partial<SmallBoard>) =>
  holds(small).map(({ kind, slot, first, last, isCut }) => [kind, slot, first, last, isCut]);

test("strokes of one grip are one hold, a push over the bar line the next", () => {
  expect(when({ strums: { lower: "D.DU.UDU" } })).toEqual([["grip", "s1", 0, 168, false]]);
  expect(when({ strums: { lower: "D.DU.U.~D" } })).toEqual([
    ["grip", "s1", 0, 120, false],
    ["grip", "s2", 168, 168, false],
  ]);
});

test("a fret is counted from the nut, open strings are not stopped", () => {
  expect(holds({})[0]?.stopped).toEqual({ lowest: 1, highest: 3 });
  expect(holds({ capo: { lower: 3 } })[0]?.stopped).toEqual({ lowest: 4, highest: 6 });
  const open = bars(["Em", "-", "0-x-x-0-0-0"]);
  expect(holds({ sections: open })[0]?.stopped).toBeUndefined();
});

test("notes of a line are holds of their own, a double stop is one", () => {
  const notes = [
    [0, "4:5"],
    [1, "3:7"],
    [1, "2:5"],
  ] as const;
  const fills = { lower: [{ bar: 1, beat: 3, beats: 2, notes }] };
  expect(when({ fills })).toEqual([
    ["grip", "s1", 0, 0, false],
    ["line", "s1", 96, 96, false],
    ["line", "s1", 144, 144, false],
  ]);
  expect(holds({ fills })[2]).toMatchObject({ stopped: { lowest: 5, highest: 7 } });
  expect(holds({ fills })[2]?.notes.map(({ string }) => string)).toEqual([3, 2]);
});

test("a choke or a ghost after the last stroke cuts a hold, one before it does not", () => {
  expect(when({ strums: { lower: "D.x....." } })[0]?.[4]).toBe(true);
  expect(when({ strums: { lower: "D.d....." } })[0]?.[4]).toBe(true);
  expect(when({ strums: { lower: "D.xD...." } })[0]?.[4]).toBe(false);
  expect(when({ strums: { lower: "D......." } })[0]?.[4]).toBe(false);
});

test("the palm and ringing on are those of the bar, the pattern or the note", () => {
  expect(holds({ palmMutes: { lower: [1] } })[0]?.palmMuted).toBe(true);
  expect(holds({ palmMutes: { lower: [2] } })[0]?.palmMuted).toBe(false);
  expect(holds({ letRings: { lower: [1] } })[0]?.letRing).toBe(true);
  const ringing = [[0, "4:5", { letRing: true }]] as const;
  const fills = { lower: [{ bar: 1, beat: 3, beats: 2, notes: ringing }] };
  expect(holds({ fills }).map(({ letRing }) => letRing)).toEqual([false, true]);
});
