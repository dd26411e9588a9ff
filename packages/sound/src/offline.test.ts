/** A recording that goes round. */
import { expect, test } from "vitest";
import { goingRound } from "./offline.ts";
import { seconds } from "./seconds.ts";

test("H23 what sounds behind the last bar line is heard at the start", () => {
  const left = Float32Array.from([1, 2, 3, 4, 10, 20, 30, 40, 100]);
  const right = Float32Array.from(left, (value) => -value);
  const round = goingRound({ left, right, sampleRate: 4 }, { end: seconds(1) });
  expect([...round.left]).toEqual([111, 22, 33, 44]);
  expect([...round.right]).toEqual([-111, -22, -33, -44]);
  const half = goingRound({ left, right, sampleRate: 8 }, { end: seconds(1) });
  expect([...half.left]).toEqual([101, 2, 3, 4, 10, 20, 30, 40]);
});
