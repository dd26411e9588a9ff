/** What a board may hold fits what the packages below it can read. */
import { chordTextMax as symbolMax } from "@halflap/theory/parse-chord";
import { expect, test } from "vitest";
import { chordTextMax } from "./limits.ts";

test("a slot holds every chord symbol that can be read", () => {
  expect(chordTextMax).toBe(symbolMax);
});
