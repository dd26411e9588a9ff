/** A recording through the browser's own Opus encoder, which not every browser has. */
import { fileGain } from "@halflap/sound/file-gain";
import type { Recording } from "@halflap/sound/offline";
import { encodeOggOpus } from "@halflap/sound/ogg-opus";
import { channels, opusSettings, packetSamples } from "./opus-settings.ts";
import { opusSampleRate } from "./practice-limits.ts";

/** Samples handed over at once, and how many such blocks may wait in the encoder. */
const blockSamples = opusSampleRate;
const waitingMax = 4;
const serial = 0x48616c66;

/** The bytes of the file; throws when the encoder breaks down. `onDone` hears 0..1. */
export async function encodeOpus(
  recording: Recording,
  onDone: (done: number) => void,
): Promise<Uint8Array> {
  const packets: Uint8Array[] = [];
  let head: Uint8Array | undefined;
  let failure: DOMException | undefined;
  const encoder = new AudioEncoder({
    output: (chunk, about) => {
      const bytes = new Uint8Array(chunk.byteLength);
      chunk.copyTo(bytes);
      packets.push(bytes);
      head ??= bytesOf(about?.decoderConfig?.description);
    },
    error: (error) => {
      failure = error;
    },
  });
  try {
    encoder.configure(opusSettings);
    const { length } = recording.left;
    const gain = fileGain(recording);
    // A packet of silence behind the end pushes out what the encoder holds back at the start.
    const end = length + packetSamples;
    for (let from = 0; from < end && !failure; from += blockSamples) {
      const block = audioOf(recording, gain, from, Math.min(end, from + blockSamples));
      encoder.encode(block);
      block.close();
      while (encoder.encodeQueueSize > waitingMax && !failure) await nextDequeue(encoder);
      onDone(Math.min(1, (from + blockSamples) / end));
    }
    if (failure) throw failure;
    await encoder.flush();
    if (head === undefined) throw new Error("the encoder said nothing about its stream");
    return encodeOggOpus({ head, packets, packetSamples, length, serial });
  } finally {
    if (encoder.state !== "closed") encoder.close();
  }
}

function nextDequeue(encoder: AudioEncoder): Promise<unknown> {
  return new Promise((resolve) => encoder.addEventListener("dequeue", resolve, { once: true }));
}

function audioOf({ left, right }: Recording, gain: number, from: number, to: number): AudioData {
  const count = to - from;
  const planes = new Float32Array(channels * count);
  for (let i = 0; i < count; i += 1) {
    planes[i] = gain * (left[from + i] ?? 0);
    planes[count + i] = gain * (right[from + i] ?? 0);
  }
  return new AudioData({
    format: "f32-planar",
    sampleRate: opusSampleRate,
    numberOfFrames: count,
    numberOfChannels: channels,
    timestamp: Math.round((from / opusSampleRate) * 1e6),
    data: planes,
  });
}

function bytesOf(source: AllowSharedBufferSource | undefined): Uint8Array | undefined {
  if (source === undefined) return undefined;
  if (ArrayBuffer.isView(source)) {
    return new Uint8Array(source.buffer, source.byteOffset, source.byteLength).slice();
  }
  return new Uint8Array(source).slice();
}
