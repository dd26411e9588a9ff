/** Sends a take to the server, and says how far it is. */
import type { TakeHead } from "@halflap/board/take";
import { apiPath, type BoardId, type MakeTakeAnswer } from "@halflap/wire/api";
import { type Answer, isRefusal } from "../../session/server.ts";
import { sessionWords } from "../../words/session.ts";

/** A minute of sound over a slow line. */
const sendingMaxMs = 180_000;

/** Answers as every call of the server does; `onDone` is told parts of the whole, 0 to 1. */
export function sendTake(
  board: BoardId,
  head: TakeHead,
  sound: Blob,
  onDone: (part: number) => void,
): Promise<Answer<MakeTakeAnswer>> {
  return new Promise((resolve) => {
    const away = () => resolve({ ok: false, code: "away", words: sessionWords.serverAway });
    // fetch does not tell how far a request is.
    const call = new XMLHttpRequest();
    call.open("POST", apiPath.takes(board));
    call.setRequestHeader("content-type", "application/octet-stream");
    call.responseType = "json";
    call.timeout = sendingMaxMs;
    call.upload.onprogress = ({ loaded, total }) => onDone(total > 0 ? loaded / total : 0);
    call.onerror = away;
    call.onabort = away;
    call.ontimeout = away;
    call.onload = () => {
      const value: unknown = call.response;
      // The page and its server are one release, so a good answer has the shape they agree on.
      if (call.status === 201) resolve({ ok: true, value: value as MakeTakeAnswer });
      else if (isRefusal(value)) resolve({ ok: false, ...value.error });
      else resolve({ ok: false, code: "failed", words: sessionWords.serverFailed });
    };
    call.send(new Blob([`${JSON.stringify(head)}\n`, sound]));
  });
}
