/** Pages, granules and checksums as RFC 3533 and RFC 7845 ask for, read back by their own words. */
import { expect, test } from "vitest";
import { encodeOggOpus, preSkipOf } from "./ogg-opus.ts";

/** Version 1, two channels, 312 samples before the music, 48 000 a second. */
const head = Uint8Array.from([
  ...[..."OpusHead"].map((letter) => letter.charCodeAt(0)),
  ...[1, 2, 0x38, 0x01, 0x80, 0xbb, 0, 0, 0, 0, 0],
]);

const packetsOf = (sizes: readonly number[]) =>
  sizes.map((size, index) => new Uint8Array(size).fill(index + 1));

function fileOf(sizes: readonly number[], length: number): Uint8Array {
  const packets = packetsOf(sizes);
  return encodeOggOpus({ head, packets, packetSamples: 960, length, serial: 7 });
}

type Page = {
  readonly kind: number;
  readonly granule: number;
  readonly serial: number;
  readonly index: number;
  readonly packets: readonly (readonly number[])[];
};

/** Reads pages bit by bit; the checksum is worked out without a table. */
function pagesOf(file: Uint8Array): readonly Page[] {
  const pages: Page[] = [];
  for (let at = 0; at < file.length; ) {
    const view = new DataView(file.buffer, file.byteOffset + at);
    expect(String.fromCharCode(...file.subarray(at, at + 4))).toBe("OggS");
    const count = view.getUint8(26);
    const lacing = [...file.subarray(at + 27, at + 27 + count)];
    const size = 27 + count + lacing.reduce((sum, each) => sum + each, 0);
    const bytes = file.slice(at, at + size);
    const told = view.getUint32(22, true);
    bytes.fill(0, 22, 26);
    expect(slowChecksum(bytes)).toBe(told);
    const packets: number[][] = [[]];
    let body = 27 + count;
    for (const segment of lacing) {
      packets.at(-1)?.push(...bytes.subarray(body, body + segment));
      body += segment;
      if (segment < 255) packets.push([]);
    }
    pages.push({
      kind: view.getUint8(5),
      granule: Number(view.getBigUint64(6, true)),
      serial: view.getUint32(14, true),
      index: view.getUint32(18, true),
      packets: packets.slice(0, -1),
    });
    at += size;
  }
  return pages;
}

function slowChecksum(bytes: Uint8Array): number {
  let sum = 0n;
  for (const byte of bytes) {
    for (let bit = 7; bit >= 0; bit -= 1) {
      const carried = ((sum >> 31n) & 1n) ^ BigInt((byte >> bit) & 1);
      sum = ((sum << 1n) & 0xffffffffn) ^ (carried === 1n ? 0x04c11db7n : 0n);
    }
  }
  return Number(sum);
}

test("H22 head and tags have a page each; the last page says where the music ends", () => {
  const sizes = Array.from({ length: 120 }, (_, index) => 100 + index);
  const pages = pagesOf(fileOf(sizes, 120 * 960 - 312 - 500));
  expect(pages.map(({ kind }) => kind)).toEqual([2, 0, 0, 0, 4]);
  expect(pages.map(({ index }) => index)).toEqual([0, 1, 2, 3, 4]);
  expect(pages.map(({ granule }) => granule)).toEqual([0, 0, 48_000, 96_000, 120 * 960 - 500]);
  expect(pages.every(({ serial }) => serial === 7)).toBe(true);
  expect(pages[0]?.packets).toEqual([[...head]]);
  expect(String.fromCharCode(...(pages[1]?.packets[0] ?? []))).toMatch(/^OpusTags/);
});

test("H22 every packet comes back as it was, of full segments and of none", () => {
  const sizes = [254, 255, 256, 510, 511, 1, 1275];
  const pages = pagesOf(fileOf(sizes, 7 * 960 - 312));
  expect(pages.slice(2).flatMap(({ packets }) => packets)).toEqual(
    packetsOf(sizes).map((packet) => [...packet]),
  );
});

test("H22 large packets share a page only as far as its table of segments goes", () => {
  const pages = pagesOf(
    fileOf(
      Array.from({ length: 60 }, () => 1275),
      60 * 960 - 312,
    ),
  ).slice(2);
  // 1275 bytes are five full segments and an empty one; a page has room for 255.
  expect(pages.map(({ packets }) => packets.length)).toEqual([42, 18]);
  expect(pages[0]?.granule).toBe(42 * 960);
});

test("H22 what lies behind the end is left out, too little and no head are bugs", () => {
  const pages = pagesOf(fileOf([10, 10, 10, 10], 960));
  expect(pages[2]?.packets).toHaveLength(2);
  expect(pages[2]?.granule).toBe(960 + 312);
  expect(() => fileOf([10], 960)).toThrow("too little");
  expect(preSkipOf(head)).toBe(312);
  expect(() => preSkipOf(head.subarray(0, 12))).toThrow("no OpusHead");
});
