/**
 * The server over HTTP, as values: every call answers, with what was asked or with words for the
 * person.
 */
import type { LaneId, MemberId } from "@halflap/board/board";
import type { BoardCopy } from "@halflap/board/copy";
import type { TakeId } from "@halflap/board/ids";
import {
  apiPath,
  type BoardAnswer,
  type BoardId,
  type BoardsAnswer,
  type DoneAnswer,
  type JoinAnswer,
  type LanesAnswer,
  type LinkId,
  type LinksAnswer,
  type MakeBoardAnswer,
  type MakeLinkAnswer,
  type MakeLinkBody,
  type Refusal,
  type RefusalCode,
  type TakesAnswer,
} from "@halflap/wire/api";
import { sessionWords } from "../words/session.ts";

/** "away" = no answer came: the network or the server is down. */
export type Answer<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly code: RefusalCode | "away"; readonly words: string };

/** How long an answer may take before the server counts as away. */
const answerMaxMs = 15_000;

/** One call for each path of the server's API. */
export const server = {
  boards: () => ask<BoardsAnswer>("GET", apiPath.boards),
  board: (board: BoardId) => ask<BoardAnswer>("GET", apiPath.board(board)),
  makeBoard: (name: string, copy: BoardCopy) =>
    ask<MakeBoardAnswer>("POST", apiPath.boards, { name, copy }),
  deleteBoard: (board: BoardId) => ask<DoneAnswer>("DELETE", apiPath.board(board)),
  join: (secret: string, name: string | undefined) =>
    ask<JoinAnswer>("POST", apiPath.join, name === undefined ? { secret } : { secret, name }),
  links: (board: BoardId) => ask<LinksAnswer>("GET", apiPath.links(board)),
  makeLink: (board: BoardId, link: MakeLinkBody) =>
    ask<MakeLinkAnswer>("POST", apiPath.links(board), link),
  revokeLink: (board: BoardId, link: LinkId) =>
    ask<DoneAnswer>("DELETE", apiPath.link(board, link)),
  claim: (board: BoardId, lane: LaneId) =>
    ask<LanesAnswer>("POST", apiPath.lane(board, lane, "claim"), {}),
  release: (board: BoardId, lane: LaneId) =>
    ask<LanesAnswer>("POST", apiPath.lane(board, lane, "release"), {}),
  handOver: (board: BoardId, lane: LaneId, to: MemberId | undefined) =>
    ask<LanesAnswer>("POST", apiPath.lane(board, lane, "hand-over"), { to: to ?? null }),
  removeMember: (board: BoardId, member: MemberId) =>
    ask<DoneAnswer>("DELETE", apiPath.member(board, member)),
  handLeader: (board: BoardId, to: MemberId) =>
    ask<DoneAnswer>("POST", apiPath.leader(board), { to }),
  takes: (board: BoardId) => ask<TakesAnswer>("GET", apiPath.takes(board)),
  removeTake: (board: BoardId, take: TakeId) =>
    ask<DoneAnswer>("DELETE", apiPath.take(board, take)),
  rename: (board: BoardId, name: string) => ask<DoneAnswer>("POST", apiPath.name(board), { name }),
} as const;

/** Whether an answer that is not 2xx says why. */
export function isRefusal(value: unknown): value is Refusal {
  if (typeof value !== "object" || value === null || !("error" in value)) return false;
  const { error } = value;
  return typeof error === "object" && error !== null && "code" in error && "words" in error;
}

async function ask<T>(method: string, path: string, body?: unknown): Promise<Answer<T>> {
  try {
    const answer = await fetch(path, {
      method,
      credentials: "same-origin",
      signal: AbortSignal.timeout(answerMaxMs),
      ...(body === undefined
        ? {}
        : { headers: { "content-type": "application/json" }, body: JSON.stringify(body) }),
    });
    const value: unknown = await answer.json();
    // The page and its server are one release, so a good answer has the shape they agree on.
    if (answer.ok) return { ok: true, value: value as T };
    if (isRefusal(value)) return { ok: false, ...value.error };
    return { ok: false, code: "failed", words: sessionWords.serverFailed };
  } catch {
    return { ok: false, code: "away", words: sessionWords.serverAway };
  }
}
