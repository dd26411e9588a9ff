/** How loud a take is played beside the band, whatever the microphone made of it. */

/** Root of the mean square where something is played: about as loud as one guitar of the mix. */
const wantedRms = 0.1;
/** Beside a mix that peaks below 1 dB under full scale no more than half of it. */
const peakMax = 0.5;
/** Nothing is made louder than this: it would be noise. */
const gainMax = 8;
/** Samples in which loudness is measured at once. */
const blockLength = 4800;

/**
 * The factor by which a recording is multiplied, by what is in it from `offsetMs` on: before its
 * first beat lies the mark that ties it to the band, which nobody hears and which is loud.
 */
export function recordingGain(
  sound: Pick<AudioBuffer, "getChannelData" | "sampleRate">,
  offsetMs: number,
): number {
  const from = Math.round((offsetMs / 1000) * sound.sampleRate);
  return takeGain(sound.getChannelData(0).subarray(from));
}

/** The factor by which samples are multiplied; 1 for silence. */
export function takeGain(samples: Float32Array): number {
  let peak = 0;
  const blocks: number[] = [];
  for (let at = 0; at + blockLength <= samples.length; at += blockLength) {
    let sum = 0;
    for (let i = at; i < at + blockLength; i += 1) {
      const value = samples[i] ?? 0;
      sum += value * value;
      peak = Math.max(peak, Math.abs(value));
    }
    blocks.push(sum / blockLength);
  }
  if (peak === 0) return 1;
  // The louder half is where something is played.
  const louder = blocks.sort((a, b) => b - a).slice(0, Math.ceil(blocks.length / 2));
  const rms = Math.sqrt(louder.reduce((sum, power) => sum + power, 0) / louder.length);
  return Math.min(gainMax, wantedRms / rms, peakMax / peak);
}
