/**
 * What page and server say to each other over HTTP: paths, bodies, answers, and the codes of a
 * refusal.
 */
import type { LaneId, MemberId, Role } from "@halflap/board/board";
import type { BoardCopy } from "@halflap/board/copy";
import type { TakeId } from "@halflap/board/ids";
import type { StoredTake } from "@halflap/board/take";

export type BoardId = string & { readonly unit: "BoardId" };
export type LinkId = string & { readonly unit: "LinkId" };

export type Me = { readonly id: MemberId; readonly name: string; readonly role: Role };

/** A board this browser is a member of. */
export type BoardCard = {
  readonly id: BoardId;
  readonly title: string;
  readonly me: Me;
  readonly editedAt: string; // ISO 8601
};

/** What a link makes of whoever opens it; "self" = the same member on another device. */
export type LinkRole = "player" | "listener" | "self";

/** A link as its maker sees it later; the secret is shown once, when it is made. */
export type LinkCard = {
  readonly id: LinkId;
  readonly role: LinkRole;
  readonly madeAt: string;
  readonly expiresAt: string;
  readonly usesLeft: number;
  readonly revoked: boolean;
};

/** The kinds of recording that browsers make, by their content. */
export const soundTypes = ["audio/webm", "audio/ogg", "audio/mp4", "audio/wav"] as const;
export type SoundType = (typeof soundTypes)[number];

/** A take with what is kept of its sound; `size` in bytes. */
export type TakeCard = StoredTake & { readonly type: SoundType; readonly size: number };

// GET /api/boards
export type BoardsAnswer = { readonly boards: readonly BoardCard[] };
// POST /api/boards
export type MakeBoardBody = { readonly name: string; readonly copy: BoardCopy };
export type MakeBoardAnswer = { readonly board: BoardId; readonly me: Me };
// GET /api/boards/:board
export type BoardAnswer = { readonly board: BoardId; readonly me: Me; readonly epoch: number };
// POST /api/boards/:board/links
export type MakeLinkBody = {
  readonly role: LinkRole;
  readonly days: number;
  readonly uses: number;
};
export type MakeLinkAnswer = { readonly link: LinkCard; readonly secret: string };
// GET /api/boards/:board/links
export type LinksAnswer = { readonly links: readonly LinkCard[] };
// DELETE /api/boards/:board/links/:link, DELETE /api/boards/:board/members/:member, DELETE
// /api/boards/:board
export type DoneAnswer = { readonly done: true };
// POST /api/join; the name may be missing for a "self" link
export type JoinBody = { readonly secret: string; readonly name?: string };
export type JoinAnswer = MakeBoardAnswer;
// POST /api/boards/:board/lanes/:lane/claim and .../release (empty body)
// POST /api/boards/:board/lanes/:lane/hand-over; a leader may give any lane to any player, or free
// it with null
export type HandOverBody = { readonly to: MemberId | null };
export type LanesAnswer = { readonly owners: Readonly<Record<LaneId, MemberId | null>> };
// POST /api/boards/:board/leader
export type HandLeaderBody = { readonly to: MemberId };
// POST /api/boards/:board/name
export type RenameBody = { readonly name: string };

// POST /api/boards/:board/takes; the body is a TakeHead as JSON, a line break, and the recording
export type MakeTakeAnswer = { readonly take: TakeCard };
// GET /api/boards/:board/takes
export type TakesAnswer = { readonly takes: readonly TakeCard[] };
// GET /api/boards/:board/takes/:take is the recording itself; DELETE answers DoneAnswer

/** Every code of a refusal; pages decide by these, never by the words. */
export const refusalCodes = [
  "bad-body", // the request can't be read; words say where
  "too-large",
  "too-many", // rate limit; try again later
  "not-found", // unknown and forbidden answer alike
  "not-allowed", // a member, but the role may not
  "lane-taken",
  "lane-not-yours",
  "member-unknown",
  "link-unknown",
  "link-expired",
  "link-used-up",
  "link-revoked",
  "store-full", // the disk is full; nothing was stored
  "boards-full", // as many boards as this browser may lead, or the server keep
  "takes-full", // the board holds as many takes as it may
  "not-sound", // the bytes are no recording that browsers make
  "bad-range",
  "wrong-origin",
  "failed",
] as const;
export type RefusalCode = (typeof refusalCodes)[number];

/** The body of every answer that is not 2xx. `words` is a sentence for the person. */
export type Refusal = { readonly error: { readonly code: RefusalCode; readonly words: string } };

/** Where each request goes. */
export const apiPath = {
  boards: "/api/boards",
  board: (board: BoardId) => `/api/boards/${board}`,
  links: (board: BoardId) => `/api/boards/${board}/links`,
  link: (board: BoardId, link: LinkId) => `/api/boards/${board}/links/${link}`,
  join: "/api/join",
  lane: (board: BoardId, lane: LaneId, act: "claim" | "release" | "hand-over") =>
    `/api/boards/${board}/lanes/${lane}/${act}`,
  member: (board: BoardId, member: MemberId) => `/api/boards/${board}/members/${member}`,
  leader: (board: BoardId) => `/api/boards/${board}/leader`,
  name: (board: BoardId) => `/api/boards/${board}/name`,
  takes: (board: BoardId) => `/api/boards/${board}/takes`,
  take: (board: BoardId, take: TakeId) => `/api/boards/${board}/takes/${take}`,
  sync: "/sync", // then /:board/:document, a WebSocket
} as const;
