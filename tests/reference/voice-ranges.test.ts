/**
 * The ranges of voice types against a published table: The New Harvard Dictionary of Music, as
 * quoted by Yale University Library, Music Cataloging, "Vocal ranges".
 */
import { voiceTypes } from "@halflap/board/singing";
import { voiceRanges } from "@halflap/checker/voice-ranges";
import { midiOf } from "@halflap/theory/pitch";
import { expect, test } from "vitest";

test.each([
  ["soprano", "C4", "A5"],
  ["mezzo", "A3", "F5"],
  ["alto", "F3", "D5"],
  ["tenor", "B2", "G4"],
  ["baritone", "G2", "E4"],
  ["bass", "E2", "C4"],
] as const)("R27 %s reaches from %s to %s", (type, low, high) => {
  expect(voiceRanges[type]).toEqual({ low: midiOf(low), high: midiOf(high) });
});

test("R27 each type lies lower than the one before it", () => {
  const ranges = voiceTypes.map((type) => voiceRanges[type]);
  for (const [index, { low, high }] of ranges.slice(1).entries()) {
    expect(low).toBeLessThan(ranges[index]?.low ?? 0);
    expect(high).toBeLessThan(ranges[index]?.high ?? 0);
  }
});
