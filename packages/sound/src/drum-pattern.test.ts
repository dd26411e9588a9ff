/** The swing ride in meters other than four; common practice, no source. */
import { expect, test } from "vitest";
import { charted, played } from "./test-support/boards.ts";

test.each([
  // At 60 halves a minute a tick is as long as at 120 quarters: the skip leads to the next bar.
  ["F, 60, 2/2, swing", "| F |", [0, 500, 1000, 1500, 1833]],
  ["F, 120, 3/4, swing", "| F |", [0, 500, 833, 1000]],
  // A bar of three and a half beats, counted in eighths.
  ["F, 120, swing", "| 7/8 F |", [0, 500, 1000, 1500]],
])("H10 %s: the ride of %s, quarters and skips, each once", (heading, bars, wanted) => {
  const { events } = played(charted(heading, bars), { countIn: 0 });
  const ride = events.filter((event) => event.kind === "drum" && event.drum === "ride");
  expect(ride.map(({ start }) => Math.round(start * 1000))).toEqual(wanted);
});
