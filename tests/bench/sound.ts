/**
 * How many times faster than it lasts music is rendered: the demo tune, and busy sixteenths in both
 * lanes, beside one plain decaying sine a note.
 */
import type { Board } from "@halflap/board/board";
import { type BoardCopy, fillDocuments } from "@halflap/board/copy";
import { demoSolution } from "@halflap/board/demo";
import { emptyDocuments } from "@halflap/board/documents";
import { makeReader } from "@halflap/board/read";
import { usualMix } from "@halflap/sound/mix";
import { lengthInSamples, renderWhole } from "@halflap/sound/offline";
import { type Performance, performanceOf, wholeTune } from "@halflap/sound/performance";
import { timelineOf } from "@halflap/timeline/passages";
import { fullBoard } from "../support/full-board.ts";
import { type Figure, percentile, timed } from "./figure.ts";

const sampleRate = 44100;
const busyBars = 16;
const runs = 5;
const timesFaster = 20;

/** Rendering speed in times real time, with guitars, bass and drums. */
export function sound(): readonly Figure[] {
  return [
    figureOf("the demo tune, rendered", played(demoSolution())),
    figureOf(
      `${busyBars} bars of sixteenths in both lanes, rendered`,
      played(fullBoard(busyBars, "dense")),
    ),
  ];
}

function figureOf(name: string, performance: Performance): Figure {
  const lasts = (lengthInSamples(performance, sampleRate) / sampleRate) * 1000;
  const options = { mix: usualMix, seed: 1 };
  const ours = timed(runs, () => void renderWhole(performance, sampleRate, options));
  const plain = timed(runs, () => void sines(performance));
  return {
    name: `${name}, p50`,
    unit: "x",
    value: lasts / percentile(ours, 0.5),
    budget: timesFaster,
    baseline: { name: "a decaying sine for each note", value: lasts / percentile(plain, 0.5) },
  };
}

const sineDecaySeconds = 0.5;
const pitchOfDrums = 48;

/** The same notes, each as long as it lasts, up to four decays. */
function sines(performance: Performance): Float32Array {
  const mono = new Float32Array(lengthInSamples(performance, sampleRate));
  for (const event of performance.events) {
    const pitch = "pitch" in event ? event.pitch : pitchOfDrums;
    const lasts = "end" in event ? event.end - event.start : sineDecaySeconds;
    const from = Math.round(event.start * sampleRate);
    const count = Math.round(Math.min(lasts, 4 * sineDecaySeconds) * sampleRate);
    const turn = (2 * Math.PI * 440 * 2 ** ((pitch - 69) / 12)) / sampleRate;
    for (let i = 0; i < count; i += 1) {
      const fading = Math.exp(-i / (sineDecaySeconds * sampleRate));
      mono[from + i] = (mono[from + i] ?? 0) + fading * Math.sin(turn * i);
    }
  }
  return mono;
}

function played(copy: BoardCopy): Performance {
  const documents = emptyDocuments();
  fillDocuments(documents, copy);
  const board: Board = makeReader(documents)();
  const timeline = timelineOf(board);
  return performanceOf(board, timeline, wholeTune(board, timeline));
}
