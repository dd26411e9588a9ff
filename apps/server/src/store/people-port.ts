/**
 * Boards, members, sessions, links and lanes: what a place that keeps them must offer. Secrets come
 * in as hashes.
 */
import type { LaneId, MemberId, Role } from "@halflap/board/board";
import type { DocumentName } from "@halflap/board/documents";
import type { StoredTake } from "@halflap/board/take";
import type { BoardId, LinkId, LinkRole, Me } from "@halflap/wire/api";
import type { LaneOwners } from "@halflap/wire/permissions";
import type { NewRow } from "./log-port.ts";
import type { SecretHash } from "./secret.ts";

/** Milliseconds since 1970. */
export type Moment = number;

export type Standing = {
  readonly members: readonly Me[];
  readonly owners: LaneOwners;
  /** Oldest first; without their sound. */
  readonly takes: readonly StoredTake[];
};

export type NewBoard = {
  readonly id: BoardId;
  readonly leader: Me;
  readonly session: SecretHash;
  readonly at: Moment;
  /** The first rows of its documents, stored together with the board or not at all. */
  readonly rows: readonly NewRow[];
  /** Removed at once: it is made beside as many as the store keeps. */
  readonly isTrial?: boolean;
};

export type Membership = { readonly board: BoardId; readonly me: Me };

export type StoredLink = {
  readonly id: LinkId;
  readonly role: LinkRole;
  /** For a "self" link, whom it brings to another device. */
  readonly member: MemberId | undefined;
  readonly madeAt: Moment;
  readonly expiresAt: Moment;
  readonly usesLeft: number;
  readonly revoked: boolean;
};

export type Redeem = {
  readonly link: SecretHash;
  readonly session: SecretHash;
  readonly at: Moment;
  /** What a newcomer would be called, and the id that a newcomer would get. */
  readonly name: string | undefined;
  readonly newcomer: MemberId;
};

export type Redeemed =
  | { readonly kind: "joined"; readonly board: BoardId; readonly me: Me }
  | {
      readonly kind: "refused";
      readonly because:
        | "unknown"
        | "expired"
        | "used-up"
        | "revoked"
        | "no-name"
        | "board-full"
        | "somebody-else";
    };

/** "gone" = the board is, or the member is not on it any more. */
export type Claimed = "claimed" | "taken" | "has-another" | "gone";
export type Added = "added" | "too-many" | "gone";

/**
 * Every method is one transaction: concurrent callers see it done or not done. Writes may reject
 * with StoreFull.
 */
export type People = {
  /** "full" when there are as many as the store keeps; then nothing was made. */
  makeBoard(board: NewBoard): Promise<"made" | "full">;
  removeBoard(board: BoardId): Promise<void>;
  /** Board ids with who the session is on them. */
  memberships(session: SecretHash): Promise<readonly Membership[]>;
  /** Who the session is on a board; undefined for an unknown board and for a stranger alike. */
  memberOf(session: SecretHash, board: BoardId): Promise<Me | undefined>;
  /** Members (leader first), lane owners and takes; undefined for an unknown board. */
  standing(board: BoardId): Promise<Standing | undefined>;
  epoch(board: BoardId): Promise<number | undefined>;
  /** Bytes stored for each document of a board; none for an unknown one. */
  documentBytes(board: BoardId): Promise<ReadonlyMap<DocumentName, number>>;
  /**
   * For each board a count that every write to it here or in the takes port raises; 0 when there is
   * no such board. In one question, so that other nodes may ask often.
   */
  peopleVersion(boards: readonly BoardId[]): Promise<readonly number[]>;

  rename(board: BoardId, member: MemberId, name: string): Promise<void>;
  /**
   * Takes a member's sessions, lanes and own-device links away. False when there is no such member.
   */
  removeMember(board: BoardId, member: MemberId): Promise<boolean>;
  /** Makes `to` the leader and the leader a player. False unless `from` leads and `to` plays. */
  handLeader(board: BoardId, from: MemberId, to: MemberId): Promise<boolean>;

  /**
   * A "self" link is never too many: it takes the place of its member's oldest. "gone" = the board
   * is, or the member whose own it is.
   */
  addLink(board: BoardId, secret: SecretHash, link: StoredLink): Promise<Added>;
  links(board: BoardId): Promise<readonly StoredLink[]>;
  revokeLink(board: BoardId, link: LinkId): Promise<boolean>;
  /**
   * Spends a use only when it makes somebody a member, raises a role or brings a member to a new
   * device. A session that is somebody on the board is nobody else there by a link.
   */
  redeem(redeem: Redeem): Promise<Redeemed>;

  /** Takes a free lane; the first of several claimers wins, and a member owns one lane at most. */
  claim(board: BoardId, lane: LaneId, member: MemberId): Promise<Claimed>;
  /** Moves a lane from the owner that the caller saw to another player, or frees it. */
  moveLane(
    board: BoardId,
    lane: LaneId,
    from: MemberId | undefined,
    to: MemberId | undefined,
  ): Promise<"moved" | "changed-meanwhile" | "has-another" | "may-not-play">;
};

/** Roles from the one that may least to the one that may most. */
export const rolesByRank: readonly Role[] = ["listener", "player", "leader"];
