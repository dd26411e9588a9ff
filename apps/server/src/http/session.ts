/** The session cookie, and who it makes the caller on a board. */
import type { BoardId, Me } from "@halflap/wire/api";
import type { Action } from "@halflap/wire/permissions";
import { mayTake } from "@halflap/wire/permissions";
import type { Context } from "hono";
import { getCookie, setCookie } from "hono/cookie";
import type { People } from "../store/people-port.ts";
import {
  decodeBoardId,
  decodeSecret,
  hashOf,
  makeSecret,
  type SecretHash,
} from "../store/secret.ts";
import { boardNotFound, Refused } from "./answers.ts";

/** Browsers keep no cookie longer. */
const cookieDays = 400;

export class Sessions {
  private readonly people: People;
  private readonly isSecure: boolean;

  constructor(people: People, isSecure: boolean) {
    this.people = people;
    this.isSecure = isSecure;
  }

  /** The session of a request; undefined when it brings none. */
  of(c: Context): SecretHash | undefined {
    const secret = decodeSecret(getCookie(c, this.cookieName));
    return secret === undefined ? undefined : hashOf(secret);
  }

  /**
   * The session of a request, made now if it brings none. The cookie is set again, so that it
   * lasts.
   */
  ensure(c: Context): SecretHash {
    const secret = decodeSecret(getCookie(c, this.cookieName)) ?? makeSecret();
    setCookie(c, this.cookieName, secret, {
      httpOnly: true,
      sameSite: "Lax",
      path: "/",
      secure: this.isSecure,
      maxAge: cookieDays * 24 * 3600,
    });
    return hashOf(secret);
  }

  /**
   * The board in the path and who the caller is on it. Throws not-found for a stranger as for no
   * board.
   */
  async member(c: Context): Promise<{ readonly board: BoardId; readonly me: Me }> {
    const board = decodeBoardId(c.req.param("board"));
    const session = this.of(c);
    if (board === undefined || session === undefined) throw boardNotFound();
    const me = await this.people.memberOf(session, board);
    if (me === undefined) throw boardNotFound();
    return { board, me };
  }

  /** The same for a member whose role allows an action. Throws not-allowed otherwise. */
  async memberWho(action: Action, c: Context) {
    const found = await this.member(c);
    if (mayTake(found.me.role, action)) return found;
    throw new Refused("not-allowed", `A ${found.me.role} of this board can't do that.`);
  }

  private get cookieName(): string {
    return this.isSecure ? "__Host-halflap" : "halflap";
  }
}
