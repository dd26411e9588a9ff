/** A calm bass: one string, plucked with the finger far from the bridge. */
import type { BassNote } from "./play-event.ts";
import { PluckedString } from "./plucked-string.ts";
import { frequencyOf } from "./seconds.ts";

export type Bass = {
  readonly start: (note: BassNote) => void;
  readonly end: (note: BassNote) => void;
  /** Writes the next `count` samples. */
  readonly render: (mono: Float64Array, count: number) => void;
  readonly slowly: () => void;
  readonly silence: () => void;
};

/** Round and dark, as under a finger; ours, set by ear. */
const finger = {
  pick: 0.3,
  edge: 900,
  scrape: 0.03,
  decay: { fundamental: 3.2, treble: 0.12 },
  carry: 0.05,
} as const;
/** Seconds in which a note that the hand ends falls by 60 dB. */
const letGo = 0.15;

/** A bass at rest. */
export function makeBass(sampleRate: number, seed: number): Bass {
  const string = new PluckedString(sampleRate, seed);
  let sounding: BassNote | undefined;
  return {
    start: (note) => {
      string.strike({ ...finger, frequency: frequencyOf(note.pitch), force: note.velocity });
      sounding = note;
    },
    end: (note) => {
      if (sounding === note) string.stop(letGo);
    },
    render: (mono, count) => {
      mono.fill(0, 0, count);
      string.addTo(mono, count);
    },
    slowly: () => string.slowly(),
    silence: () => {
      string.silence();
      sounding = undefined;
    },
  };
}
