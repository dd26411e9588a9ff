/** The way to the loudspeaker, which band and takes share: together they are bent, not clipped. */
import { bent } from "@halflap/sound/engine";

/** What comes in above this is given as this is: a band and takes at their loudest. */
const peakMax = 4;
/** Points on either side of silence, so close that what is not bent stays as it is. */
const points = 4096;

const waysOut = new WeakMap<BaseAudioContext, AudioNode>();

/** One for each context, made when it is first wanted; it delays nothing. */
export function wayOut(context: BaseAudioContext): AudioNode {
  const known = waysOut.get(context);
  if (known !== undefined) return known;
  const made = new GainNode(context, { gain: 1 / peakMax });
  made.connect(new WaveShaperNode(context, { curve: bendCurve() })).connect(context.destination);
  waysOut.set(context, made);
  return made;
}

/** From the lowest sample to the highest, each as a part of `peakMax`. */
export function bendCurve(): Float32Array<ArrayBuffer> {
  return Float32Array.from({ length: 2 * points + 1 }, (_, index) =>
    bent((index / points - 1) * peakMax),
  );
}
