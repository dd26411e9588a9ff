/**
 * The body of a request that brings a take: what is said about it as one line of JSON, then the
 * recording. Read as it comes, and left as soon as it can't be taken.
 */
import { decodeTakeHead, type TakeHead } from "@halflap/board/take";
import type { SoundType } from "@halflap/wire/api";
import { takeBytesMax, takeHeadBytesMax } from "@halflap/wire/limits";
import type { Context } from "hono";
import { Refused } from "./answers.ts";
import { bad, nameIn } from "./body.ts";
import { announcedType, signBytes, soundTypeOf } from "./sound-type.ts";

export type TakeBody = {
  readonly head: TakeHead;
  readonly type: SoundType;
  readonly sound: Uint8Array;
};

const lineBreak = 0x0a;

/** Reads the whole body. Throws Refused with what is wrong, at the first byte where it shows. */
export async function takeBodyOf(c: Context): Promise<TakeBody> {
  const body = c.req.raw.body;
  if (body === null) throw bad("The request is empty.");
  const said = Number(c.req.header("content-length") ?? 0);
  if (said > takeHeadBytesMax + takeBytesMax) throw tooLarge();
  let head: TakeHead | undefined;
  let held = Buffer.alloc(0);
  const chunks: Buffer[] = [];
  let size = 0;
  for await (const chunk of body) {
    if (head === undefined) {
      held = Buffer.concat([held, chunk]);
      const end = held.indexOf(lineBreak);
      if (end < 0 && held.length <= takeHeadBytesMax) continue;
      if (end < 0 || end > takeHeadBytesMax) throw bad("What is said about the take is too long.");
      head = headOf(held.subarray(0, end));
      chunks.push(held.subarray(end + 1));
      size = held.length - end - 1;
    } else {
      chunks.push(Buffer.from(chunk));
      size += chunk.length;
    }
    if (size > takeBytesMax) throw tooLarge();
    if (size >= signBytes && announcedType(firstOf(chunks)) === undefined) throw notSound();
  }
  if (head === undefined) throw bad("What is said about the take must end with a line break.");
  const sound = Buffer.concat(chunks);
  const type = soundTypeOf(sound);
  if (type === undefined) throw notSound();
  return { head, type, sound };
}

function headOf(bytes: Buffer): TakeHead {
  const read = decodeTakeHead(parsed(bytes.toString("utf8")));
  if (!read.ok) throw bad(`The take can't be read: ${read.error.path} ${read.error.words}.`);
  return { ...read.value, name: nameIn({ name: read.value.name }) };
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}

function firstOf(chunks: readonly Buffer[]): Buffer {
  const [first] = chunks;
  const isEnough = first !== undefined && first.length >= signBytes;
  return isEnough ? first : Buffer.concat(chunks).subarray(0, signBytes);
}

function tooLarge(): Refused {
  return new Refused("too-large", `A take's recording has at most ${takeBytesMax} bytes.`);
}

function notSound(): Refused {
  const kinds = "WebM or Ogg with Opus, MP4 with AAC or Opus, or WAV";
  return new Refused("not-sound", `This is no recording that is kept here: ${kinds}.`);
}
