/**
 * The player: takes events, gives samples. It runs alike in an audio worklet, a worker and Node,
 * and the samples do not depend on the size of the blocks that are asked for.
 */
import { laneIds } from "@halflap/board/board";
import { assert } from "@halflap/theory/units";
import { makeBass } from "./bass.ts";
import { clickSound } from "./click.ts";
import { drumSound } from "./drums.ts";
import { makeGuitar } from "./guitar.ts";
import { guitarVoices } from "./guitar-voices.ts";
import { type Channel, type Mix, makeChannels, type PartSetting, usualMix } from "./mix.ts";
import { makeOneShots, type OneShots } from "./one-shots.ts";
import { drums, type Part, type PlayEvent } from "./play-event.ts";
import { makePlayQueue, type Turn } from "./play-queue.ts";
import { slowStep } from "./plucked-string.ts";

export type EngineOptions = {
  readonly mix: Mix;
  /** Decides the noises: equal seeds sound equal. */
  readonly seed: number;
  /**
   * For ears at once: what would clip is bent instead. Not for files, which stay exact and can be
   * turned down as a whole.
   */
  readonly bendsPeaks?: boolean;
};

/** Where events belong: their time 0 in samples, and which edit of the tune they come from. */
export type Placing = { readonly origin: number; readonly generation: number };

export type Engine = {
  readonly sampleRate: number;
  /** Samples given so far; the next is this one. */
  readonly position: () => number;
  /**
   * Plays events at their times. What belongs to an older generation than the newest is refused;
   * what is late by up to `lateMaxSeconds` sounds at once, and what is later not at all.
   */
  readonly schedule: (events: readonly PlayEvent[], placing: Placing) => void;
  /** Forgets what older generations have still to start from a sample on. What sounds rings out. */
  readonly replaceFrom: (sample: number, generation: number) => void;
  readonly setPart: (part: Part, setting: PartSetting) => void;
  /** Fades out within `fadeSeconds` and forgets everything; play again once it is silent. */
  readonly stop: () => void;
  /** Fills both sides, which are of equal length. */
  readonly render: (left: Float32Array, right: Float32Array) => void;
};

/** How late an event may be, and how long stopping takes. */
export const lateMaxSeconds = 0.05;
export const fadeSeconds = 0.015;

const usualOptions: EngineOptions = { mix: usualMix, seed: 1, bendsPeaks: true };

/** A player at rest. */
export function makeEngine(sampleRate: number, options: EngineOptions = usualOptions): Engine {
  const band = makeBand(sampleRate, options);
  const queue = makePlayQueue();
  const sides = { left: new Float64Array(slowStep), right: new Float64Array(slowStep) };
  const heard = options.bendsPeaks === true ? bent : (sample: number) => sample;
  const fadeLength = Math.round(fadeSeconds * sampleRate);
  const state = { position: 0, generation: 0, fadeLeft: 0 };

  const span = (left: Float32Array, right: Float32Array, from: number): number => {
    for (let turn = queue.take(state.position); turn; turn = queue.take(state.position)) {
      band.play(turn);
    }
    const untilTurn = (queue.next() ?? Number.POSITIVE_INFINITY) - state.position;
    const untilSlow = slowStep - (state.position % slowStep);
    const untilFaded = state.fadeLeft > 0 ? state.fadeLeft : slowStep;
    const count = Math.min(untilTurn, untilSlow, untilFaded, left.length - from);
    band.render(sides, count);
    for (let i = 0; i < count; i += 1) {
      const fade = state.fadeLeft > 0 ? (state.fadeLeft - i) / fadeLength : 1;
      left[from + i] = heard(fade * (sides.left[i] ?? 0));
      right[from + i] = heard(fade * (sides.right[i] ?? 0));
    }
    state.position += count;
    if (state.fadeLeft > 0) {
      state.fadeLeft -= count;
      if (state.fadeLeft === 0) band.silence();
    }
    if (state.position % slowStep === 0) band.slowly();
    return count;
  };

  return {
    sampleRate,
    position: () => state.position,
    schedule: (events, { origin, generation }) => {
      if (generation < state.generation) return;
      state.generation = generation;
      const earliest = state.position - lateMaxSeconds * sampleRate;
      const turns = events.flatMap((event) =>
        turnsOf(event, origin, generation, sampleRate).filter(({ starts }) => starts >= earliest),
      );
      queue.add(turns);
    },
    replaceFrom: (sample, generation) => {
      state.generation = Math.max(state.generation, generation);
      queue.drop(sample, generation);
    },
    setPart: (part, setting) => band.channels[part].set(setting),
    stop: () => {
      queue.clear();
      if (state.fadeLeft === 0) state.fadeLeft = fadeLength;
    },
    render: (left, right) => {
      assert(left.length === right.length, "both sides are of equal length");
      for (let done = 0; done < left.length; ) done += span(left, right, done);
    },
  };
}

/** Up to -1.4 dBFS a sample stays as it is; above, it never reaches full scale. */
const straightMax = 0.85;
const room = 0.14;

/** A sample as it is given to ears: as it is, or bent so that it does not clip. */
export function bent(sample: number): number {
  const size = Math.abs(sample);
  if (size <= straightMax) return sample;
  return Math.sign(sample) * (straightMax + room * Math.tanh((size - straightMax) / room));
}

function turnsOf(
  event: PlayEvent,
  origin: number,
  generation: number,
  sampleRate: number,
): readonly Turn[] {
  const starts = origin + Math.round(event.start * sampleRate);
  const start: Turn = { sample: starts, kind: "start", event, starts, generation };
  if (event.kind !== "guitar" && event.kind !== "bass") return [start];
  const ends = Math.max(starts + 1, origin + Math.round(event.end * sampleRate));
  return [start, { sample: ends, kind: "end", event, starts, generation }];
}

type Sides = { readonly left: Float64Array; readonly right: Float64Array };

/** Everybody who plays, each with a channel. */
function makeBand(sampleRate: number, { mix, seed }: EngineOptions) {
  const channels = makeChannels(mix, sampleRate);
  const mono = new Float64Array(slowStep);
  const guitars = {
    upper: makeGuitar(guitarVoices.upper, sampleRate, seed + 100),
    lower: makeGuitar(guitarVoices.lower, sampleRate, seed + 200),
  };
  const bass = makeBass(sampleRate, seed + 300);
  const shots = { drums: makeOneShots(), click: makeOneShots(), "count-in": makeOneShots() };
  const kit = new Map(
    drums.map((drum, index) => [drum, drumSound(drum, sampleRate, seed + 400 + index)] as const),
  );
  const clicks = { first: clickSound(true, sampleRate), other: clickSound(false, sampleRate) };
  const ringing = [guitars.upper, guitars.lower, bass];
  const through = (player: Pick<OneShots, "render">, channel: Channel, sides: Sides, n: number) => {
    player.render(mono, n);
    channel.add(mono, sides, n);
  };
  return {
    channels,
    play: ({ event, kind }: Turn): void => {
      switch (event.kind) {
        case "guitar":
          guitars[event.part][kind](event);
          return;
        case "bass":
          bass[kind](event);
          return;
        case "drum": {
          const sound = kit.get(event.drum);
          if (sound !== undefined) shots.drums.start(sound, event.velocity);
          return;
        }
        case "click":
          shots[event.part].start(event.isFirst ? clicks.first : clicks.other, 1);
      }
    },
    render: (sides: Sides, count: number): void => {
      sides.left.fill(0, 0, count);
      sides.right.fill(0, 0, count);
      for (const lane of laneIds) through(guitars[lane], channels[lane], sides, count);
      through(bass, channels.bass, sides, count);
      through(shots.drums, channels.drums, sides, count);
      through(shots.click, channels.click, sides, count);
      through(shots["count-in"], channels["count-in"], sides, count);
    },
    slowly: (): void => {
      for (const player of ringing) player.slowly();
    },
    silence: (): void => {
      for (const player of [...ringing, ...Object.values(shots)]) player.silence();
    },
  };
}
