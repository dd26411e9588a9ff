/** What a chord demands hangs on what its tones say, not on which objects they are. */
import { expect, test } from "vitest";
import { demandsOf } from "./grip-demands.ts";
import { chord } from "./test-support/as-read.ts";

const symbols = ["C", "Am", "F7", "G7b9", "Bm7b5", "D13", "E7#9", "A5", "Dm/C", "G11"];

test.each(symbols)("T12 %s says the same where its lists have tones of their own", (text) => {
  const one = chord(text);
  const apart: typeof one = JSON.parse(JSON.stringify(one));
  expect(one.tones.some((tone) => apart.tones.includes(tone))).toBe(false);
  for (const rootless of [true, false]) {
    expect(demandsOf(apart, rootless, true)).toEqual(demandsOf(one, rootless, true));
  }
});
