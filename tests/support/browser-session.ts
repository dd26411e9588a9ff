/**
 * A visitor without a browser: keeps the cookie that the server gives, and calls the API as the
 * page would.
 */
import { type BoardCopy, copyOf } from "@halflap/board/copy";
import { emptyDocuments } from "@halflap/board/documents";
import { setTitle } from "@halflap/board/edits/chart";
import {
  apiPath,
  type BoardId,
  type JoinAnswer,
  type LinkRole,
  type MakeBoardAnswer,
  type MakeLinkAnswer,
} from "@halflap/wire/api";

export type Answer = { readonly status: number; readonly body: unknown; readonly headers: Headers };

export class Visitor {
  cookie: string | undefined;
  readonly address: string;

  constructor(address: string) {
    this.address = address;
  }

  /**
   * A request with this visitor's cookie and the server's own origin, unless `headers` says
   * otherwise.
   */
  async ask(
    method: "GET" | "POST" | "DELETE",
    path: string,
    body?: unknown,
    headers: Readonly<Record<string, string>> = { origin: this.address },
  ): Promise<Answer> {
    const answer = await fetch(`${this.address}${path}`, {
      method,
      headers: {
        ...headers,
        ...(this.cookie === undefined ? {} : { cookie: this.cookie }),
        ...(body === undefined ? {} : { "content-type": "application/json" }),
      },
      ...(body === undefined ? {} : { body: JSON.stringify(body) }),
    });
    const set = answer.headers.get("set-cookie");
    if (set !== null) this.cookie = set.split(";")[0];
    const text = await answer.text();
    const isJson = answer.headers.get("content-type")?.startsWith("application/json") === true;
    return {
      status: answer.status,
      body: isJson ? JSON.parse(text) : text,
      headers: answer.headers,
    };
  }

  async makeBoard(name = "Ada", copy: unknown = smallCopy()): Promise<MakeBoardAnswer> {
    return expectOk(await this.ask("POST", apiPath.boards, { name, copy })) as MakeBoardAnswer;
  }

  async invite(board: BoardId, role: LinkRole, uses = 10): Promise<MakeLinkAnswer> {
    const body = { role, days: 14, uses };
    return expectOk(await this.ask("POST", apiPath.links(board), body)) as MakeLinkAnswer;
  }

  async join(secret: string, name?: string): Promise<JoinAnswer> {
    const body = name === undefined ? { secret } : { secret, name };
    return expectOk(await this.ask("POST", apiPath.join, body)) as JoinAnswer;
  }
}

/** The body of an answer that must not be a refusal. */
export function expectOk({ status, body }: Answer): unknown {
  if (status >= 300) throw new Error(`refused with ${status}: ${JSON.stringify(body)}`);
  return body;
}

/** The code of a refusal; undefined when the answer is none. */
export function refusalOf({ body }: Answer): string | undefined {
  return (body as { error?: { code?: string } }).error?.code;
}

/** A board's copy with a title and nothing else. */
export function smallCopy(title = "Slow Train"): BoardCopy {
  const documents = emptyDocuments();
  setTitle(documents.board, title);
  return copyOf(documents);
}
