/** Single notes of a guitar, rendered. */
import { midiNote } from "@halflap/theory/units";
import { makeGuitar } from "../guitar.ts";
import { guitarVoices } from "../guitar-voices.ts";
import type { GuitarNote } from "../play-event.ts";
import { slowStep } from "../plucked-string.ts";
import { seconds } from "../seconds.ts";

/** A note on the open A string of the lower guitar, unless said otherwise. */
export function note(
  more: Partial<Omit<GuitarNote, "pitch">> & { pitch?: number } = {},
): GuitarNote {
  return {
    ...{ kind: "guitar", part: "lower", string: 5, bend: 0, velocity: 0.64 },
    ...{ technique: "pluck", follows: false, start: seconds(0), end: seconds(60) },
    ...more,
    pitch: midiNote(more.pitch ?? 45),
  };
}

/** What a guitar sounds like that plays some notes by their starts and ends; to the next 32. */
export function sounded(notes: readonly GuitarNote[], length: number, rate = 44100): Float64Array {
  const guitar = makeGuitar(guitarVoices[notes[0]?.part ?? "lower"], rate, 7);
  const steps = Math.ceil((length * rate) / slowStep);
  const all = new Float64Array(steps * slowStep);
  const mono = new Float64Array(slowStep);
  const isIn = (time: number, step: number) => Math.round((time * rate) / slowStep) === step;
  for (let step = 0; step < steps; step += 1) {
    for (const one of notes) if (isIn(one.end, step)) guitar.end(one);
    for (const one of notes) if (isIn(one.start, step)) guitar.start(one);
    guitar.render(mono, slowStep);
    guitar.slowly();
    all.set(mono, step * slowStep);
  }
  return all;
}
