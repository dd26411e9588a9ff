/** How long a request body may be; a longer one is refused before it is read to its end. */
import type { MiddlewareHandler } from "hono";
import { bodyLimit } from "hono/body-limit";
import { Refused } from "./answers.ts";

/** Refuses bodies longer than so many bytes. */
export function limitedTo(bytesMax: number): MiddlewareHandler {
  return bodyLimit({
    maxSize: bytesMax,
    onError: () => {
      throw new Refused("too-large", `The request is longer than ${bytesMax} bytes.`);
    },
  });
}
