/**
 * The body of a request that brings a take: what is said about it as one line of JSON, then the
 * recording. Read as it comes, and left as soon as it can't be taken.
 */
import { decodeTakeHead, type TakeHead } from "@halflap/board/take";
import type { SoundType } from "@halflap/wire/api";
import { takeBytesMax, takeHeadBytesMax } from "@halflap/wire/limits";
import type { Context } from "hono";
import { Refused } from "./answers.ts";
import { bad } from "./body.ts";
import { nameIn } from "./names.ts";
import { announcedType, signBytes, soundTypeOf } from "./sound-type.ts";

export type TakeBody = {
  readonly head: TakeHead;
  readonly type: SoundType;
  readonly sound: Uint8Array;
};

const lineBreak = 0x0a;

/**
 * Reads the whole body. Throws Refused with what is wrong, at the first byte where it shows.
 * `onHead` is called before the recording is taken in, and may throw too.
 */
export async function takeBodyOf(c: Context, onHead: () => void = () => {}): Promise<TakeBody> {
  const body = c.req.raw.body;
  if (body === null) throw bad("The request is empty.");
  const said = Number(c.req.header("content-length") ?? 0);
  if (said > takeHeadBytesMax + takeBytesMax) throw tooLarge();
  let head: { readonly value: TakeHead; readonly end: number } | undefined;
  let held: Buffer = Buffer.alloc(firstRoom);
  let size = 0;
  for await (const chunk of inTime(body)) {
    held = withChunk(held, size, chunk);
    const before = size;
    size += chunk.length;
    if (head === undefined) {
      const end = held.subarray(0, size).indexOf(lineBreak, before);
      if (end < 0 && size <= takeHeadBytesMax) continue;
      if (end < 0 || end > takeHeadBytesMax) throw bad("What is said about the take is too long.");
      head = { value: headOf(held.subarray(0, end)), end };
      onHead();
    }
    const sound = held.subarray(head.end + 1, size);
    if (sound.length > takeBytesMax) throw tooLarge();
    if (sound.length >= signBytes && announcedType(sound) === undefined) throw notSound();
  }
  if (head === undefined) throw bad("What is said about the take must end with a line break.");
  const sound = held.subarray(head.end + 1, size);
  const type = soundTypeOf(sound);
  if (type === undefined) throw notSound();
  return { head: head.value, type, sound };
}

/**
 * What comes, while it comes fast enough: a body that stands still would keep a place from others
 * for minutes. Throws Refused.
 */
async function* inTime(body: ReadableStream<Uint8Array>): AsyncGenerator<Uint8Array> {
  const reader = body.getReader();
  const startedAt = performance.now();
  let size = 0;
  let isSlow = false;
  const timer = setInterval(() => {
    const seconds = (performance.now() - startedAt) / 1000;
    isSlow = seconds > slowSeconds && size < seconds * slowBytesPerSecond;
    if (isSlow) void reader.cancel().catch(() => undefined);
  }, 1_000);
  try {
    for (let next = await reader.read(); !next.done; next = await reader.read()) {
      size += next.value.length;
      yield next.value;
    }
    if (isSlow) throw tooSlow();
  } finally {
    clearInterval(timer);
    void reader.cancel().catch(() => undefined);
  }
}

/** From so many seconds on a body has to have come at this rate: half of a poor mobile line's. */
const slowSeconds = 20;
const slowBytesPerSecond = 4 * 1024;

/** Most heads and the first chunk of sound. */
const firstRoom = 64 * 1024;

/**
 * What is held, with more after its first `size` bytes. It doubles when it is full: a body that
 * comes in a million pieces costs no more than one that comes in one.
 */
function withChunk(held: Buffer, size: number, chunk: Uint8Array): Buffer {
  const needed = size + chunk.length;
  const roomy = needed <= held.length ? held : Buffer.concat([held], 2 * needed);
  roomy.set(chunk, size);
  return roomy;
}

/** Decoded with the name that it will be stored under: what is stored was read once. */
function headOf(bytes: Buffer): TakeHead {
  const said = parsed(bytes.toString("utf8"));
  const isObject = typeof said === "object" && said !== null;
  const read = decodeTakeHead(isObject ? { ...said, name: nameIn({ ...said }) } : said);
  if (!read.ok) throw bad(`The take can't be read: ${read.error.path} ${read.error.words}.`);
  return read.value;
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}

function tooLarge(): Refused {
  return new Refused("too-large", `A take's recording has at most ${takeBytesMax} bytes.`);
}

function tooSlow(): Refused {
  return new Refused("too-many", "The recording comes too slowly to be taken; try again later.");
}

function notSound(): Refused {
  const kinds = "WebM or Ogg with Opus, MP4 with AAC or Opus, or WAV";
  return new Refused("not-sound", `This is no recording that is kept here: ${kinds}.`);
}
