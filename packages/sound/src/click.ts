/** The click: a short, soft knock with a pitch, higher on the first of a bar. */

/** Hz; a fourth apart, in a register where guitars leave room. Ours. */
const firstHz = 1760;
const otherHz = 1320;
const decaySeconds = 0.012;
const lengthSeconds = 0.09;
const riseSeconds = 0.0005;

/** The samples of a click. */
export function clickSound(isFirst: boolean, sampleRate: number): Float32Array {
  const frequency = isFirst ? firstHz : otherHz;
  return Float32Array.from({ length: Math.ceil(lengthSeconds * sampleRate) }, (_, i) => {
    const time = i / sampleRate;
    const shape = Math.min(1, time / riseSeconds) * Math.exp(-time / decaySeconds);
    return shape * Math.sin(2 * Math.PI * frequency * time);
  });
}
