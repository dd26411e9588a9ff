/**
 * What kind of recording some bytes are, by the bytes alone: a header or a file name may say
 * anything.
 */
import type { SoundType } from "@halflap/wire/api";

/** So many bytes tell whether a recording can be one at all. */
export const signBytes = 12;

/** The first bytes of each kind: RFC 8794 (EBML), RFC 3533 (Ogg), ISO 14496-12, and RIFF. */
const signs: Readonly<Record<SoundType, (bytes: Buffer) => boolean>> = {
  "audio/webm": (bytes) => bytes.readUInt32BE(0) === 0x1a45dfa3,
  "audio/ogg": (bytes) => textAt(bytes, 0, "OggS"),
  "audio/mp4": (bytes) => textAt(bytes, 4, "ftyp"),
  "audio/wav": (bytes) => textAt(bytes, 0, "RIFF") && textAt(bytes, 8, "WAVE"),
};

/** How far into a file its head is looked for. */
const headBytes = 4096;

/**
 * What the whole of each kind must hold: Opus in WebM (its codec id) and Ogg (RFC 7845), AAC or
 * Opus in MP4 (whose tables may stand at the end), plain or floating samples in WAV.
 */
const contents: Readonly<Record<SoundType, (bytes: Buffer) => boolean>> = {
  "audio/webm": (bytes) => holds(bytes, "webm", 64) && holds(bytes, "A_OPUS", headBytes),
  "audio/ogg": (bytes) => holds(bytes, "OpusHead", 64),
  "audio/mp4": (bytes) => holds(bytes, "soun") && (holds(bytes, "mp4a") || holds(bytes, "Opus")),
  "audio/wav": (bytes) => holds(bytes, "fmt ", headBytes) && holds(bytes, "data", headBytes),
};

const types: readonly SoundType[] = ["audio/webm", "audio/ogg", "audio/mp4", "audio/wav"];

/** The kind that the first bytes announce; undefined for anything else, and for too few bytes. */
export function announcedType(first: Buffer): SoundType | undefined {
  return first.length < signBytes ? undefined : types.find((type) => signs[type](first));
}

/** The kind of a whole recording; undefined when it is none that browsers make. */
export function soundTypeOf(bytes: Buffer): SoundType | undefined {
  const type = announcedType(bytes);
  return type !== undefined && contents[type](bytes) ? type : undefined;
}

function textAt(bytes: Buffer, at: number, text: string): boolean {
  return bytes.toString("latin1", at, at + text.length) === text;
}

function holds(bytes: Buffer, text: string, within = bytes.length): boolean {
  return bytes.subarray(0, within).includes(text, 0, "latin1");
}
