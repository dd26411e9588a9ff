/**
 * The recording of a take as an answer: whole or a range of it, read from the store slice by slice
 * as the other end reads.
 */
import type { BoardId, SoundType, TakeCard } from "@halflap/wire/api";
import {
  recordingStillMs,
  recordingsAtOnceMax,
  recordingsPerAddressMax,
  recordingsPerMemberMax,
} from "@halflap/wire/limits";
import type { HttpBindings } from "@hono/node-server";
import type { Context } from "hono";
import type { Membership } from "../store/people-port.ts";
import type { ByteRange, Takes } from "../store/takes-port.ts";
import { Refused, refusalAnswer } from "./answers.ts";
import { byteRange } from "./byte-range.ts";
import { Places } from "./places.ts";
import type { RoutePorts } from "./ports.ts";

const endings: Readonly<Record<SoundType, string>> = {
  "audio/webm": "webm",
  "audio/ogg": "ogg",
  "audio/mp4": "m4a",
  "audio/wav": "wav",
};

/** Of a recording, held for each answer; small beside the whole, and large beside a look-up. */
const sliceBytes = 512 * 1024;

/** Answers with recordings: so many at once for a member, an address and the server. */
export function soundAnswers(
  { takes, addressOf }: Pick<RoutePorts, "takes" | "addressOf">,
  stillMs = recordingStillMs,
) {
  const places = new Places();
  return async (c: Context, { board, me }: Membership, card: TakeCard): Promise<Response> => {
    const { size } = card;
    const headers = headersOf(card);
    const tag = headers.ETag;
    if (c.req.header("if-none-match") === tag) return new Response(null, { status: 304, headers });
    const wanted = [undefined, tag].includes(c.req.header("if-range"));
    const range = wanted ? byteRange(c.req.header("range"), size) : undefined;
    if (range === "none") return beyondEnd(size);
    const leave = places.take([
      [`member ${board}/${me.id}`, recordingsPerMemberMax],
      [`address ${addressOf(c)}`, recordingsPerAddressMax],
      ["server", recordingsAtOnceMax],
    ]);
    if (leave === undefined) throw tooMany();
    untilAnswered(c, stillMs, leave);
    const part = range ?? { start: 0, length: size };
    const sound = await soundOf(takes, board, card, part);
    const whole = { ...headers, "Content-Length": `${part.length}` };
    if (range === undefined) return new Response(sound, { headers: whole });
    const content = `bytes ${part.start}-${part.start + part.length - 1}/${size}`;
    return new Response(sound, { status: 206, headers: { ...whole, "Content-Range": content } });
  };
}

/** What stands under a take's id never changes, so a browser may keep it. */
function headersOf({ id, type }: TakeCard) {
  return {
    "Accept-Ranges": "bytes",
    "Cache-Control": "private, max-age=31536000, immutable",
    "Content-Disposition": `attachment; filename="take-${id}.${endings[type]}"`,
    "Content-Type": type,
    ETag: `"${id}"`,
  };
}

/** Gives the place back at the answer's end, and ends a line on which nothing goes on. */
function untilAnswered(c: Context, stillMs: number, leave: () => void): void {
  const { incoming, outgoing } = c.env as HttpBindings;
  const { socket } = incoming;
  // An answer that waits behind others on its line is not told when the line ends.
  socket.once("close", leave);
  outgoing.once("close", () => {
    socket.off("close", leave);
    leave();
  });
  if (socket.destroyed) leave();
  outgoing.setTimeout(stillMs);
}

/** The first slice is read before the answer begins: what is wrong with the store is told then. */
async function soundOf(takes: Takes, board: BoardId, { id }: TakeCard, part: ByteRange) {
  const end = part.start + part.length;
  let at = part.start;
  const next = async () => {
    const length = Math.min(sliceBytes, end - at);
    const slice = await takes.read(board, id, { start: at, length });
    if (slice === undefined) throw unknownTake();
    at += length;
    return slice;
  };
  const first = await next();
  if (at === end) return first;
  let waiting: typeof first | undefined = first;
  const source = {
    async pull(stream: ReadableStreamDefaultController<typeof first>) {
      stream.enqueue(waiting ?? (await next()));
      waiting = undefined;
      if (at === end) stream.close();
    },
  };
  return new ReadableStream(source, { highWaterMark: 0 });
}

function beyondEnd(size: number): Response {
  const words = `The recording has ${size} bytes, and the part asked for lies beyond them.`;
  const answer = refusalAnswer(new Refused("bad-range", words));
  answer.headers.set("Content-Range", `bytes */${size}`);
  return answer;
}

function tooMany(): Refused {
  return new Refused("too-many", "Many takes are being heard just now; try again in a moment.");
}

/** A take that is not on the board, or not any more. */
export function unknownTake(): Refused {
  return new Refused("not-found", "There is no such take on this board.");
}
