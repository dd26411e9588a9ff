/** W15: a page's bound counts what its server doubts; from a server by itself it is its own. */
import { expect, test } from "vitest";
import { shared } from "./create-clock.ts";

const agreement = { atMs: 0, offsetMs: 5_000, withinMs: 2, drift: 0 };

test.each([
  ["by itself", undefined, 2, false],
  ["of several", { withinMs: 0.5 }, 2.5, false],
  ["cut off from others", "cut-off", 2, true],
] as const)("W15 a server %s", (_name, nodes, withinMs, isCutOff) => {
  expect(shared(agreement, nodes)).toEqual({ ...agreement, withinMs, isCutOff });
});
