/** Plays short sounds that were worked out before, some at once. */

export type OneShots = {
  readonly start: (sound: Float32Array, velocity: number) => void;
  /** Writes the next `count` samples. */
  readonly render: (mono: Float64Array, count: number) => void;
  readonly silence: () => void;
};

/** So many sound at once; of more the oldest gives way, which is long past its attack. */
const voicesMax = 16;

/** A player of short sounds, at rest. */
export function makeOneShots(): OneShots {
  type Voice = { readonly sound: Float32Array; readonly velocity: number; at: number };
  let voices: Voice[] = [];
  return {
    start: (sound, velocity) => {
      if (voices.length >= voicesMax) voices.shift();
      voices.push({ sound, velocity, at: 0 });
    },
    render: (mono, count) => {
      mono.fill(0, 0, count);
      let isOver = false;
      for (const voice of voices) {
        const { sound, velocity, at } = voice;
        const end = Math.min(count, sound.length - at);
        for (let i = 0; i < end; i += 1) mono[i] = (mono[i] ?? 0) + velocity * (sound[at + i] ?? 0);
        voice.at += count;
        isOver ||= voice.at >= sound.length;
      }
      if (isOver) voices = voices.filter(({ sound, at }) => at < sound.length);
    },
    silence: () => {
      voices = [];
    },
  };
}
