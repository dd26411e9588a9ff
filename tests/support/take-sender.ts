/** Takes without a microphone: recordings of a few bytes, sent as the page sends them. */
import { request } from "node:http";
import { apiPath, type BoardId, type MakeTakeAnswer, type TakeCard } from "@halflap/wire/api";
import { type Answer, expectOk, type Visitor } from "./browser-session.ts";

/** What is said about a take unless a test says otherwise; plain, as it comes over the line. */
export const usualHead = {
  name: "Riff",
  bars: [{ bar: "b1", length: 192 }],
  offsetMs: 2310.5,
  lengthMs: 1846,
  tempo: 104,
};

/** A WAV file (RIFF, 16 bits, one channel, 48 kHz) of so many bytes, header included. */
export function wavOf(bytes: number, fill = 0): Buffer {
  const wav = Buffer.alloc(bytes, fill);
  wav.write("RIFF", 0, "latin1");
  wav.writeUInt32LE(bytes - 8, 4);
  wav.write("WAVEfmt ", 8, "latin1");
  wav.writeUInt32LE(16, 16);
  wav.writeUInt16LE(1, 20);
  wav.writeUInt16LE(1, 22);
  wav.writeUInt32LE(48_000, 24);
  wav.writeUInt32LE(96_000, 28);
  wav.writeUInt16LE(2, 32);
  wav.writeUInt16LE(16, 34);
  wav.write("data", 36, "latin1");
  wav.writeUInt32LE(bytes - 44, 40);
  return wav;
}

/** A request's body: what is said, a line break, the recording. */
export function takeBody(sound: Uint8Array, head: unknown = usualHead): Buffer {
  return Buffer.concat([Buffer.from(`${JSON.stringify(head)}\n`), sound]);
}

/** Sends a body as it is; a refusal may come before its end. */
export async function sendBody(
  visitor: Visitor,
  board: BoardId,
  body: Buffer,
  headers: Readonly<Record<string, string>> = {},
): Promise<Answer> {
  const address = new URL(`${visitor.address}${apiPath.takes(board)}`);
  return new Promise((resolve, reject) => {
    const sent = request(
      address,
      {
        method: "POST",
        headers: {
          origin: visitor.address,
          "content-type": "application/octet-stream",
          ...(visitor.cookie === undefined ? {} : { cookie: visitor.cookie }),
          ...headers,
        },
      },
      (answer) => {
        const chunks: Buffer[] = [];
        answer.on("data", (chunk: Buffer) => chunks.push(chunk));
        answer.on("end", () => {
          const text = Buffer.concat(chunks).toString();
          const fields = Object.entries(answer.headers).map(([name, value]) => [name, `${value}`]);
          const said = new Headers(Object.fromEntries(fields));
          resolve({ status: answer.statusCode ?? 0, body: JSON.parse(text), headers: said });
        });
      },
    );
    let isAnswered = false;
    sent.once("response", () => {
      isAnswered = true;
    });
    // The server ends the line of a body that it does not want to read.
    sent.on("error", (fault) => (isAnswered ? undefined : reject(fault)));
    sent.end(body);
  });
}

/** Sends a take that must be kept. */
export async function keepTake(
  visitor: Visitor,
  board: BoardId,
  sound: Uint8Array = wavOf(400),
  head: unknown = usualHead,
): Promise<TakeCard> {
  const answer = await sendBody(visitor, board, takeBody(sound, head));
  return (expectOk(answer) as MakeTakeAnswer).take;
}

/** The recording under a take's id. */
export async function recordingOf(
  visitor: Visitor,
  board: BoardId,
  take: TakeCard,
  headers: Readonly<Record<string, string>> = {},
): Promise<Response> {
  return fetch(`${visitor.address}${apiPath.take(board, take.id)}`, {
    headers: { ...(visitor.cookie === undefined ? {} : { cookie: visitor.cookie }), ...headers },
  });
}
