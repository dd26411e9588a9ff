/** Ranges of bytes as RFC 9110, section 14, reads them. */
import { expect, test } from "vitest";
import { byteRange } from "./byte-range.ts";

test.each([
  [undefined, undefined],
  ["bytes=0-499", { start: 0, length: 500 }],
  ["bytes=500-999", { start: 500, length: 500 }],
  ["bytes=-500", { start: 9500, length: 500 }],
  ["bytes=9500-", { start: 9500, length: 500 }],
  ["bytes=0-", { start: 0, length: 10_000 }],
  ["bytes=9999-20000", { start: 9999, length: 1 }],
  ["bytes=-20000", { start: 0, length: 10_000 }],
  ["bytes=10000-", "none"],
  ["bytes=-0", "none"],
  ["bytes=5-4", undefined],
  ["bytes=0-1,5-6", undefined],
  ["bytes=-", undefined],
  ["lines=1-2", undefined],
] as const)("%s of 10000 bytes", (header, range) => {
  expect(byteRange(header, 10_000)).toEqual(range);
});
