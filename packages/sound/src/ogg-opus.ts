/**
 * A recording as an Ogg Opus file: packets of an Opus encoder in pages of Ogg (RFC 3533, RFC 7845).
 * What the encoder adds before and after is declared, so that players leave it out.
 */
import { assert } from "@halflap/theory/units";

export type OpusRecording = {
  /** The encoder's own words about its stream: "OpusHead" and what follows. */
  readonly head: Uint8Array;
  /** In order, each `packetSamples` long. */
  readonly packets: readonly Uint8Array[];
  /** Samples a packet, 48 000 a second. */
  readonly packetSamples: number;
  /** Samples that are to be heard, 48 000 a second. */
  readonly length: number;
  /** Tells the stream from others chained to it; any number up to 32 bits. */
  readonly serial: number;
};

/** A page for each second, as players that seek like it. */
const packetsPerPage = 50;
const segmentBytes = 255;
const segmentsMax = 255;
const headerBytes = 27;
const begins = 2;
const ends = 4;
const firstPacket = "OpusHead";
/** Where OpusHead says how many samples come before the music. */
const preSkipAt = 10;
const headBytesMin = 19;

/** The bytes of the file. Packets that lie wholly behind the end are left out. */
export function encodeOggOpus(recording: OpusRecording): Uint8Array {
  const { head, packets, packetSamples, length, serial } = recording;
  const preSkip = preSkipOf(head);
  const last = preSkip + length;
  const needed = Math.ceil(last / packetSamples);
  assert(packets.length >= needed, "the encoder gave too little", packets.length);
  const heard = packets.slice(0, needed);
  const page = (body: readonly Uint8Array[], kind: number, granule: number, index: number) =>
    pageOf(body, { kind, granule, serial, index });
  const pages = [page([head], begins, 0, 0), page([tags()], 0, 0, 1)];
  for (let from = 0; from < heard.length; ) {
    const count = packetsThatFit(heard, from);
    const to = from + count;
    const isLast = to === heard.length;
    const granule = isLast ? last : to * packetSamples;
    pages.push(page(heard.slice(from, to), isLast ? ends : 0, granule, pages.length));
    from = to;
  }
  return joined(pages);
}

/** Samples of an Opus stream before the music begins, as its head says. */
export function preSkipOf(head: Uint8Array): number {
  const isHead = head.length >= headBytesMin && textOf(head, firstPacket.length) === firstPacket;
  assert(isHead, "no OpusHead", head.length);
  return viewOf(head).getUint16(preSkipAt, true);
}

function packetsThatFit(packets: readonly Uint8Array[], from: number): number {
  let [count, segments] = [0, 0];
  while (count < packetsPerPage) {
    const packet = packets[from + count];
    if (packet === undefined) break;
    segments += segmentsOf(packet);
    if (segments > segmentsMax) break;
    count += 1;
  }
  assert(count > 0, "a packet too large for a page", from);
  return count;
}

/** A packet ends with the first segment that is not full, were it empty. */
function segmentsOf({ length }: Uint8Array): number {
  return Math.floor(length / segmentBytes) + 1;
}

type PageHead = {
  readonly kind: number;
  /** Samples to the end of the page, the skipped ones among them. */
  readonly granule: number;
  readonly serial: number;
  readonly index: number;
};

function pageOf(packets: readonly Uint8Array[], { kind, granule, serial, index }: PageHead) {
  const lacing = packets.flatMap((packet) => {
    const full = segmentsOf(packet) - 1;
    return [...Array.from({ length: full }, () => segmentBytes), packet.length % segmentBytes];
  });
  const bytes = joined([new Uint8Array(headerBytes), Uint8Array.from(lacing), ...packets]);
  const view = viewOf(bytes);
  writeText(bytes, 0, "OggS");
  bytes[5] = kind;
  view.setBigUint64(6, BigInt(granule), true);
  view.setUint32(14, serial, true);
  view.setUint32(18, index, true);
  bytes[26] = lacing.length;
  view.setUint32(22, checksum(bytes), true);
  return bytes;
}

/** The second packet: who made it, and no remarks. */
function tags(): Uint8Array {
  const [magic, maker] = ["OpusTags", "Halflap"];
  const bytes = new Uint8Array(magic.length + 4 + maker.length + 4);
  writeText(bytes, 0, magic);
  viewOf(bytes).setUint32(magic.length, maker.length, true);
  writeText(bytes, magic.length + 4, maker);
  return bytes;
}

const polynomial = 0x04c11db7;
const topBit = 0x80000000;

/** CRC of 32 bits, most significant bit first, from 0, as RFC 3533 asks for. */
function checksum(bytes: Uint8Array): number {
  let sum = 0;
  for (const byte of bytes) {
    sum = ((sum << 8) ^ (crcTable[((sum >>> 24) ^ byte) & 0xff] ?? 0)) >>> 0;
  }
  return sum;
}

const crcTable = Uint32Array.from({ length: 256 }, (_, byte) => {
  let sum = byte << 24;
  for (let bit = 0; bit < 8; bit += 1) sum = sum & topBit ? (sum << 1) ^ polynomial : sum << 1;
  return sum >>> 0;
});

function joined(parts: readonly Uint8Array[]): Uint8Array {
  const whole = new Uint8Array(parts.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length;
  }
  return whole;
}

function viewOf(bytes: Uint8Array): DataView {
  return new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
}

function writeText(bytes: Uint8Array, at: number, text: string): void {
  for (let i = 0; i < text.length; i += 1) bytes[at + i] = text.charCodeAt(i);
}

function textOf(bytes: Uint8Array, length: number): string {
  return String.fromCharCode(...bytes.subarray(0, length));
}
