/**
 * Looks at recorded sound, knowing nothing of how it was made: where the strongest tone near a
 * frequency lies, how bright it is, how fast it fades.
 */

/** The power at a frequency, through a Hann window over the whole. */
export function powerAt(sound: Float64Array, frequency: number, sampleRate: number): number {
  return plainPower(windowed(sound), frequency, sampleRate);
}

function windowed(sound: Float64Array): Float64Array {
  return sound.map((value, i) => value * (0.5 - 0.5 * Math.cos((2 * Math.PI * i) / sound.length)));
}

/** Goertzel 1958. */
function plainPower(sound: Float64Array, frequency: number, sampleRate: number): number {
  const turn = 2 * Math.cos((2 * Math.PI * frequency) / sampleRate);
  let [one, two] = [0, 0];
  for (let i = 0; i < sound.length; i += 1) {
    const next = (sound[i] ?? 0) + turn * one - two;
    two = one;
    one = next;
  }
  return one * one + two * two - turn * one * two;
}

const semitone = 2 ** (1 / 12);
const goldenShare = (Math.sqrt(5) - 1) / 2;
const searchSteps = 17;

/** By how many cents the strongest tone within a quarter tone of a frequency is higher than it. */
export function centsFrom(sound: Float64Array, frequency: number, sampleRate: number): number {
  const shaped = windowed(sound);
  const measured = (at: number) => ({ at, power: plainPower(shaped, at, sampleRate) });
  let [low, high] = [frequency / semitone ** 0.4, frequency * semitone ** 0.4];
  // Golden section: of the two places inside, one serves again in the next step.
  let left = measured(high - (high - low) * goldenShare);
  let right = measured(low + (high - low) * goldenShare);
  for (let step = 0; step < searchSteps; step += 1) {
    if (left.power > right.power) {
      high = right.at;
      right = left;
      left = measured(high - (high - low) * goldenShare);
    } else {
      low = left.at;
      left = right;
      right = measured(low + (high - low) * goldenShare);
    }
  }
  return 1200 * Math.log2((low + high) / 2 / frequency);
}

/** The mean frequency in Hz, weighted by amplitude in steps of a third of an octave. */
export function centroidOf(sound: Float64Array, sampleRate: number): number {
  const shaped = windowed(sound);
  let [sum, weighted] = [0, 0];
  for (let frequency = 60; frequency < 12000; frequency *= 2 ** (1 / 24)) {
    const amplitude = Math.sqrt(plainPower(shaped, frequency, sampleRate)) * frequency;
    sum += amplitude;
    weighted += amplitude * frequency;
  }
  return weighted / sum;
}

/** The root mean square from one time to another. */
export function levelOf(sound: Float64Array | Float32Array, from: number, to: number): number {
  let sum = 0;
  for (let i = from; i < to; i += 1) sum += (sound[i] ?? 0) ** 2;
  return Math.sqrt(sum / (to - from));
}
