/** The bass under chords that change faster than a swung sixteenth; common practice, no source. */
import { expect, test } from "vitest";
import { charted, played } from "./test-support/boards.ts";

test.each(["F C . G", "F . C G", "F . G N.C."])(
  "H9 H13 swung thirty-seconds keep order: %s",
  (four) => {
    const bar = Array.from({ length: 8 }, () => four).join(" ");
    const { events } = played(charted("F, 120, swing", `| ${bar} |`), { countIn: 0 });
    const times = events.flatMap((each) => (each.kind === "bass" ? [each.start, each.end] : []));
    expect(times.length).toBeGreaterThanOrEqual(32);
    expect(times).toEqual([...times].sort((a, b) => a - b));
  },
);
