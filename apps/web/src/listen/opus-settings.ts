/** How a practice file is written as Opus, and whether this browser can. */
import { opusSampleRate } from "./practice-limits.ts";

/** Left and right. */
export const channels = 2;
/** Bits a second: a tenth of WAV. Ours. */
const bitRate = 128_000;
const packetMicroseconds = 20_000;
/** Samples of a packet. */
export const packetSamples = (opusSampleRate * packetMicroseconds) / 1e6;

/** What the encoder is asked for. */
export const opusSettings: AudioEncoderConfig = {
  codec: "opus",
  sampleRate: opusSampleRate,
  numberOfChannels: channels,
  bitrate: bitRate,
  opus: { frameDuration: packetMicroseconds },
};

/** Whether this browser can write the file. */
export async function canEncodeOpus(): Promise<boolean> {
  if (typeof AudioEncoder === "undefined") return false;
  try {
    return (await AudioEncoder.isConfigSupported(opusSettings)).supported === true;
  } catch {
    return false;
  }
}
