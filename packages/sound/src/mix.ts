/** How loud each part is and where it stands, without any compressor: parts only add up. */
import { assert } from "@halflap/theory/units";
import { type Part, parts } from "./play-event.ts";

export type PartSetting = {
  /** A factor, 0 up to `levelMax`; 1 is the balance we suggest. */
  readonly level: number;
  readonly isMuted: boolean;
};

export type Mix = Readonly<Record<Part, PartSetting>>;

/** Twice the amplitude, 6 dB more, is as much as anyone may turn up a part. */
export const levelMax = 2;

/** Everybody plays, in the balance we suggest; the click waits until it is asked for. */
export const usualMix: Mix = {
  upper: { level: 1, isMuted: false },
  lower: { level: 1, isMuted: false },
  bass: { level: 1, isMuted: false },
  drums: { level: 1, isMuted: false },
  click: { level: 1, isMuted: true },
  "count-in": { level: 1, isMuted: false },
};

/**
 * Amplitudes at level 1: guitars alike, everything else behind them. Found by measuring the demo
 * tune; the sum comes to about -18 LUFS there.
 */
const balance: Readonly<Record<Part, number>> = {
  upper: 0.425,
  lower: 0.425,
  bass: 0.595,
  drums: 0.54,
  click: 0.45,
  "count-in": 0.45,
};

/** -1 is left, 1 is right. Each guitar has a side of its own, neither is lost in one ear. */
const places: Readonly<Record<Part, number>> = {
  upper: -0.6,
  lower: 0.6,
  bass: 0,
  drums: 0,
  click: 0,
  "count-in": 0,
};

/** Seconds in which a change of level is made, so that it does not click. */
const rampSeconds = 0.012;

/** One part on its way into the mix. */
export type Channel = {
  readonly set: (setting: PartSetting) => void;
  /** Adds `count` samples of the part to both sides. */
  readonly add: (
    mono: Float64Array,
    sides: { readonly left: Float64Array; readonly right: Float64Array },
    count: number,
  ) => void;
};

/** A channel for each part, as a mix sets them. */
export function makeChannels(mix: Mix, sampleRate: number): Readonly<Record<Part, Channel>> {
  const channel = (part: Part) => makeChannel(part, mix[part], sampleRate);
  const [upper, lower, bass, drums, click, countIn] = parts.map(channel);
  assert(
    !!upper && !!lower && !!bass && !!drums && !!click && !!countIn,
    "every part has its channel",
  );
  return { upper, lower, bass, drums, click, "count-in": countIn };
}

function makeChannel(part: Part, first: PartSetting, sampleRate: number): Channel {
  // Equal power: a part keeps its loudness wherever it stands.
  const angle = ((places[part] + 1) * Math.PI) / 4;
  const [left, right] = [Math.cos(angle), Math.sin(angle)];
  const step = levelMax / (rampSeconds * sampleRate);
  let target = amplitudeOf(part, first);
  let gain = target;
  return {
    set: (setting) => {
      target = amplitudeOf(part, setting);
    },
    add: (mono, sides, count) => {
      for (let i = 0; i < count; i += 1) {
        if (gain !== target) {
          gain = gain < target ? Math.min(target, gain + step) : Math.max(target, gain - step);
        }
        const heard = gain * (mono[i] ?? 0);
        sides.left[i] = (sides.left[i] ?? 0) + left * heard;
        sides.right[i] = (sides.right[i] ?? 0) + right * heard;
      }
    },
  };
}

function amplitudeOf(part: Part, { level, isMuted }: PartSetting): number {
  assert(level >= 0 && level <= levelMax, "not a level", level);
  return isMuted ? 0 : balance[part] * level;
}
