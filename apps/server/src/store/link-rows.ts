/** Links as both kinds of store hold them. */
import { memberId } from "@halflap/board/talk";
import type { LinkRole } from "@halflap/wire/api";
import type { StoredLink } from "./people-port.ts";
import type { FoundLink } from "./redemption.ts";
import { decodeLinkId } from "./secret.ts";

/** Columns of the links table; a file has 0 and 1 for what is or is not. */
export type LinkRow = {
  readonly id: string;
  readonly board: string;
  readonly role: LinkRole;
  readonly member: string | null;
  readonly made_at: number;
  readonly expires_at: number;
  readonly uses_left: number;
  readonly revoked: number | boolean;
};

/** The link of a row; none where its id is no possible one. */
export function linkOf(row: LinkRow): readonly StoredLink[] {
  const id = decodeLinkId(row.id);
  if (id === undefined) return [];
  const member = row.member === null ? undefined : memberId(row.member);
  return [{ id, member, madeAt: row.made_at, ...foundOf(row) }];
}

/** What of a row decides whether the link still holds. */
export function foundOf(row: LinkRow): FoundLink {
  const { role, expires_at: expiresAt, uses_left: usesLeft } = row;
  return { role, expiresAt, usesLeft, revoked: Boolean(row.revoked) };
}
