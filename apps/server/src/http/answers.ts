/**
 * Answers: a refusal is thrown anywhere below a route and becomes its code, its sentence and its
 * status.
 */
import type { Refusal, RefusalCode } from "@halflap/wire/api";

const statusOf = {
  "bad-body": 400,
  "too-large": 413,
  "too-many": 429,
  "not-found": 404,
  "not-allowed": 403,
  "lane-taken": 409,
  "lane-not-yours": 403,
  "member-unknown": 404,
  "link-unknown": 404,
  "link-expired": 410,
  "link-used-up": 410,
  "link-revoked": 410,
  "store-full": 507,
  "boards-full": 409,
  "takes-full": 409,
  "not-sound": 415,
  "bad-range": 416,
  "wrong-origin": 403,
  failed: 500,
} as const satisfies Record<RefusalCode, number>;

/** Ends a request with a refusal. `words` is a sentence for the person. */
export class Refused extends Error {
  override readonly name = "Refused";
  readonly code: RefusalCode;

  constructor(code: RefusalCode, words: string) {
    super(words);
    this.code = code;
  }
}

/** Unknown and forbidden boards answer alike. */
export function boardNotFound(): Refused {
  return new Refused("not-found", "There is no such board, or you are not on it.");
}

/** The whole answer to a refused request. */
export function refusalAnswer({ code, message }: Refused): Response {
  const body: Refusal = { error: { code, words: message } };
  return Response.json(body, { status: statusOf[code] });
}
