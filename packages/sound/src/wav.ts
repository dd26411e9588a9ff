/** A recording as a WAV file: RIFF, 16-bit PCM, two channels (Microsoft and IBM, 1991). */
import { assert } from "@halflap/theory/units";
import { fileGain } from "./file-gain.ts";
import { makeNoise } from "./noise.ts";
import type { Recording } from "./offline.ts";

const headerBytes = 44;
const channels = 2;
const bytesPerSample = 2;
const fullScale = 32767;
/** Sizes in the header are 32-bit numbers. */
const bytesMax = 2 ** 32 - 1;

/** The bytes of the file. Triangular dither, two steps wide, follows from the seed. */
export function encodeWav({ left, right, sampleRate }: Recording, seed: number): Uint8Array {
  assert(left.length === right.length, "both sides are of equal length");
  const soundBytes = left.length * channels * bytesPerSample;
  assert(headerBytes + soundBytes <= bytesMax, "too long for a WAV file", left.length);
  const bytes = new Uint8Array(headerBytes + soundBytes);
  const view = new DataView(bytes.buffer);
  writeHeader(view, soundBytes, sampleRate);
  const scale = fullScale * fileGain({ left, right });
  const noise = makeNoise(seed);
  const dithered = (value: number) => Math.round(value * scale + (noise() + noise()) / 2);
  for (let i = 0; i < left.length; i += 1) {
    const at = headerBytes + i * channels * bytesPerSample;
    view.setInt16(at, dithered(left[i] ?? 0), true);
    view.setInt16(at + bytesPerSample, dithered(right[i] ?? 0), true);
  }
  return bytes;
}

function writeHeader(view: DataView, soundBytes: number, sampleRate: number): void {
  const frameBytes = channels * bytesPerSample;
  writeText(view, 0, "RIFF");
  view.setUint32(4, headerBytes - 8 + soundBytes, true);
  writeText(view, 8, "WAVE");
  writeText(view, 12, "fmt ");
  view.setUint32(16, 16, true);
  view.setUint16(20, 1, true);
  view.setUint16(22, channels, true);
  view.setUint32(24, sampleRate, true);
  view.setUint32(28, sampleRate * frameBytes, true);
  view.setUint16(32, frameBytes, true);
  view.setUint16(34, bytesPerSample * 8, true);
  writeText(view, 36, "data");
  view.setUint32(40, soundBytes, true);
}

function writeText(view: DataView, at: number, text: string): void {
  for (let i = 0; i < text.length; i += 1) view.setUint8(at + i, text.charCodeAt(i));
}
