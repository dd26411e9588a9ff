/**
 * The two guitars as tables. The figures are ours, set by ear and measure so that the two differ
 * clearly and are equally loud; what is known of real guitars is said beside it, from memory.
 */
import type { LaneId } from "@halflap/board/board";
import type { BodyShape } from "./body.ts";

export type GuitarVoice = {
  /** Where it is picked: the share of the open string from the bridge. */
  readonly pick: number;
  /** Hz: how sharp the pick is at middle force. */
  readonly edge: number;
  /** How much of the attack is noise. */
  readonly scrape: number;
  /** Seconds in which open strings fall by 60 dB, string 6 first. */
  readonly sustain: readonly number[];
  /** Seconds in which their treble does. */
  readonly shine: readonly number[];
  readonly body: BodyShape;
  /** Makes both equally loud. */
  readonly level: number;
};

/** One voice a lane. */
export const guitarVoices: Readonly<Record<LaneId, GuitarVoice>> = {
  // Bright and thin, so that high grips stay clear of the other: picked close to the bridge with a
  // hard pick, little wood, nothing below what a small grip on the upper strings needs.
  upper: {
    pick: 0.11,
    edge: 5600,
    scrape: 0.12,
    sustain: [4.2, 3.8, 3.4, 3.0, 2.8, 2.6],
    shine: [0.7, 0.75, 0.8, 0.95, 0.95, 0.9],
    body: {
      modes: [
        { frequency: 420, quality: 1.4, gain: 0.35 },
        { frequency: 2300, quality: 0.9, gain: 0.7 },
      ],
      echoes: [0.0007, 0.0019],
      floor: 170,
      ceiling: 9000,
    },
    level: 1,
  },
  // Warm and full: picked towards the neck with a soft pick, over a body whose air rings near
  // 100 Hz and whose top rings near 200 Hz, as those of common flat-top guitars do.
  lower: {
    pick: 0.19,
    edge: 3000,
    scrape: 0.1,
    sustain: [4.0, 3.6, 3.2, 2.7, 2.4, 2.2],
    shine: [0.38, 0.4, 0.44, 0.5, 0.5, 0.45],
    body: {
      modes: [
        { frequency: 104, quality: 4, gain: 0.35 },
        { frequency: 208, quality: 4, gain: 0.45 },
        { frequency: 380, quality: 2.5, gain: 0.35 },
        // Without it an attack is a thud: what the pick says lies here.
        { frequency: 1700, quality: 0.8, gain: 0.5 },
      ],
      echoes: [0.0011, 0.0027],
      floor: 95,
      ceiling: 5200,
    },
    level: 1.05,
  },
};
