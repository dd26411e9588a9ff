/** A recording to practise with: what it holds and how it is rendered. */
import type { Board } from "@halflap/board/board";
import type { Mix } from "@halflap/sound/mix";
import { goingRound, lengthInSamples, type Recording, renderSlices } from "@halflap/sound/offline";
import { type Performance, performanceOf } from "@halflap/sound/performance";
import { timelineOf } from "@halflap/timeline/passages";
import type { Swing } from "@halflap/timeline/swing";
import { type Loop, orderOfPlay, stretchOf } from "./order-of-play.ts";
import { fileMinutesMax, opusSampleRate, wavSampleRate } from "./practice-limits.ts";
import { cutOff } from "./score.ts";
import { boardThatReaches, sectionMeant } from "./sections-alone.ts";

/** WAV for whoever lets it go round, Opus for whoever has little room. */
export type FileFormat = "wav" | "opus";

/** What is wanted in the file. */
export type FileWish = {
  readonly format: FileFormat;
  readonly board: Board;
  readonly loop: Loop | undefined;
  readonly rounds: number;
  readonly tempoFactor: number;
  readonly countsIn: boolean;
  /** How far off-beats are late where the board swings. */
  readonly swing: Swing;
  readonly mix: Mix;
};

export type FileStep =
  | { readonly kind: "working"; readonly done: number }
  | { readonly kind: "rendered"; readonly recording: Recording }
  | { readonly kind: "refused"; readonly why: "nothing" | "too-long" };

/** Whether the file itself goes round: nothing comes before its first bar, or after its last. */
function goesRound({ format, loop }: FileWish): boolean {
  return format === "wav" && loop !== undefined;
}

/** Renders what is wanted in steps; whoever stops asking has cancelled. */
export function* renderPracticeFile(wish: FileWish): Generator<FileStep> {
  const performance = performanceFor(wish);
  if (performance === undefined) return yield { kind: "refused", why: "nothing" };
  if (performance.end > fileMinutesMax * 60) return yield { kind: "refused", why: "too-long" };
  const sampleRate = wish.format === "opus" ? opusSampleRate : wavSampleRate;
  const length = lengthInSamples(performance, sampleRate);
  const recording: Recording = {
    left: new Float32Array(length),
    right: new Float32Array(length),
    sampleRate,
  };
  let at = 0;
  for (const slice of renderSlices(performance, sampleRate, { mix: wish.mix, seed: 1 })) {
    recording.left.set(slice.left, at);
    recording.right.set(slice.right, at);
    at += slice.left.length;
    yield { kind: "working", done: slice.done };
  }
  const made = goesRound(wish) ? goingRound(recording, performance) : recording;
  yield { kind: "rendered", recording: made };
}

function performanceFor(wish: FileWish): Performance | undefined {
  const { loop, rounds, tempoFactor, countsIn, swing } = wish;
  const board = boardThatReaches(wish.board, sectionMeant(wish.board, loop, undefined));
  const timeline = timelineOf(board, swing);
  const stretch = stretchOf(orderOfPlay(timeline), loop, 0);
  if (stretch === undefined) return undefined;
  const range = { first: stretch.first, last: stretch.last };
  const countIn = countsIn && !goesRound(wish) ? Math.max(1, board.countIn) : 0;
  const played = performanceOf(board, timeline, { range, rounds, tempoFactor, countIn });
  if (!goesRound(wish)) return played;
  return { ...played, events: played.events.map((event) => cutOff(event, played.end)) };
}
