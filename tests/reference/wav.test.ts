/** The practice file of the demo tune, opened with a second program. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fillDocuments } from "@halflap/board/copy";
import { demoSolution } from "@halflap/board/demo";
import { emptyDocuments } from "@halflap/board/documents";
import { makeReader } from "@halflap/board/read";
import { usualMix } from "@halflap/sound/mix";
import { lengthInSamples, renderWhole } from "@halflap/sound/offline";
import { performanceOf, wholeTune } from "@halflap/sound/performance";
import { encodeWav } from "@halflap/sound/wav";
import { timelineOf } from "@halflap/timeline/passages";
import { describe, expect, test } from "vitest";
import { readByChunks, readWav } from "../support/wav-reader.ts";

const sampleRate = 44100;

function demo() {
  const documents = emptyDocuments();
  fillDocuments(documents, demoSolution());
  const board = makeReader(documents)();
  const timeline = timelineOf(board);
  const range = { first: 0, last: 7 };
  const performance = performanceOf(board, timeline, { ...wholeTune(board, timeline), range });
  const recording = renderWhole(performance, sampleRate, { mix: usualMix, seed: 1 });
  return { performance, bytes: encodeWav(recording, 1) };
}

describe("H20 a second program", () => {
  test("H20 reads its length and channels, and finds no clipped sample", () => {
    const folder = mkdtempSync(join(tmpdir(), "halflap-wav-"));
    try {
      const { performance, bytes } = demo();
      const path = join(folder, "demo.wav");
      writeFileSync(path, bytes);
      const { program, ...facts } = readWav(path);
      const frames = lengthInSamples(performance, sampleRate);
      expect(facts, program).toMatchObject({ channels: 2, sampleRate, bits: 16, frames });
      expect(facts.peak).toBeGreaterThan(0.1);
      expect(facts.peak).toBeLessThan(0.9);
      const ours = readByChunks(readFileSync(path));
      expect(ours).toMatchObject({ channels: 2, sampleRate, bits: 16, frames });
      expect(ours.peak).toBeCloseTo(facts.peak, 3);
    } finally {
      rmSync(folder, { recursive: true, force: true });
    }
  });

  test("a broken file is noticed by our own reader", () => {
    const { bytes } = demo();
    expect(() => readByChunks(Buffer.from(bytes.subarray(0, 5000)))).toThrow("of this length");
    const wrong = Buffer.from(bytes);
    wrong.writeUInt16LE(3, 20);
    expect(() => readByChunks(wrong)).toThrow("not PCM");
  });
});
