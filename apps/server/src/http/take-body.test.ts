/** A take is read alike however its bytes are cut up on the way. */
import { Hono } from "hono";
import { expect, test, vi } from "vitest";
import { takeBodyOf } from "./take-body.ts";

const bars = [{ bar: "a~b1", length: 192 }];
const head = { name: "Riff", bars, offsetMs: 2310.5, lengthMs: 1846, tempo: 104 };
const sound = Buffer.concat([
  Buffer.from("OggS"),
  Buffer.alloc(24),
  Buffer.from("OpusHead\nand on"),
]);
const body = Buffer.concat([
  Buffer.from(`${JSON.stringify(head)}\n`),
  sound,
  Buffer.alloc(70_000, 7),
]);

async function readFrom(stream: ReadableStream<Uint8Array>, onHead?: () => void) {
  const app = new Hono();
  app.post("/", async (c) => {
    const read = await takeBodyOf(c, onHead);
    return c.json({ ...read, sound: Buffer.from(read.sound).toString("base64") });
  });
  app.onError((fault, c) => c.json({ why: fault.message }));
  const asked = { method: "POST", body: stream, duplex: "half" };
  return (await app.request("/", asked)).json();
}

async function readInPieces(bytes: Buffer, length: number) {
  let at = 0;
  const pieces = new ReadableStream<Uint8Array>({
    pull(stream) {
      if (at >= bytes.length) return stream.close();
      stream.enqueue(new Uint8Array(bytes.subarray(at, at + length)));
      at += length;
    },
  });
  return { ...(await readFrom(pieces)), at };
}

test.each([1, 2, 7, 100, 65_536, 1_000_000])("in pieces of %i bytes", async (length) => {
  const rest = body.subarray(body.indexOf(0x0a) + 1);
  expect(await readInPieces(body, length)).toEqual({
    at: expect.any(Number),
    head,
    type: "audio/ogg",
    sound: rest.toString("base64"),
  });
});

test("what is no sound is left at its first bytes, were they to come one by one", async () => {
  const page = Buffer.concat([Buffer.from(`${JSON.stringify(head)}\n`), Buffer.alloc(5000, 60)]);
  const read = await readInPieces(page, 1);
  expect(read).toMatchObject({ why: expect.stringContaining("no recording") });
  expect(read.at).toBeLessThan(page.indexOf(0x0a) + 30);
});

test("what is said of a take is told once, and not before its last byte", async () => {
  const told: string[] = [];
  const end = body.indexOf(0x0a);
  const pieces = [body.subarray(0, end), body.subarray(end, end + 1), body.subarray(end + 1)];
  const stream = new ReadableStream<Uint8Array>(
    {
      pull(stream) {
        const piece = pieces.shift();
        told.push(piece === undefined ? "end" : `${piece.length}`);
        if (piece === undefined) stream.close();
        else stream.enqueue(new Uint8Array(piece));
      },
    },
    { highWaterMark: 0 },
  );
  await readFrom(stream, () => void told.push("head"));
  expect(told).toEqual([`${end}`, "1", "head", `${body.length - end - 1}`, "end"]);
});

test("a body that stands still is left, and what it took is free again", async () => {
  vi.useFakeTimers({ toFake: ["setInterval", "clearInterval", "performance"] });
  let isLeft = false;
  const standing = new ReadableStream<Uint8Array>({
    start: (stream) => stream.enqueue(new Uint8Array(body.subarray(0, 2_000))),
    cancel() {
      isLeft = true;
    },
  });
  const read = readFrom(standing);
  await vi.advanceTimersByTimeAsync(19_000);
  expect(isLeft).toBe(false);
  await vi.advanceTimersByTimeAsync(3_000);
  expect(await read).toMatchObject({ why: expect.stringContaining("too slowly") });
  expect(isLeft).toBe(true);
  vi.useRealTimers();
});
