/**
 * The talk document: who is a member, who owns which lane, and which takes there are. Written by
 * the server alone.
 */
import { assert } from "@halflap/theory/units";
import type * as Y from "yjs";
import { type LaneId, laneIds, type Member, type MemberId, type Role } from "./board.ts";
import { fieldOf } from "./decode.ts";
import { isStoredId, type TakeId } from "./ids.ts";
import { byId } from "./lane-store.ts";
import { talkLayout } from "./layout.ts";
import { membersMax, nameMax } from "./limits.ts";
import { isOneLine, oneLine } from "./one-line.ts";
import type { StoredTake, Take } from "./take.ts";
import { readTakes, takeValue } from "./take-state.ts";

const roles: readonly Role[] = ["leader", "player", "listener"];

export type TalkState = {
  /** Leader first, then players, then listeners; by id within. */
  readonly members: readonly Member[];
  readonly owners: Readonly<Record<LaneId, MemberId | undefined>>;
  /** Oldest first. */
  readonly takes: readonly Take[];
};

/** The member of an id that the server gave. */
export function memberId(text: string): MemberId {
  assert(isStoredId(text), `not a member id: ${text}`);
  return text as MemberId;
}

/** A member's name as `talk` holds it: one short line. Cuts what is longer. */
export function memberName(text: string): string {
  return oneLine(text, nameMax) ?? "";
}

/** Adds a member, or changes the name or role of one. */
export function setMember(doc: Y.Doc, member: Member): void {
  assert(isStoredId(member.id), "a member needs an id");
  assert(isOneLine(member.name, nameMax), "a member's name is one short line");
  talkLayout(doc).members.set(member.id, { name: member.name, role: member.role });
}

/** Takes a member away, and frees the lanes that the member owned. */
export function dropMember(doc: Y.Doc, member: MemberId): void {
  const { members, owners } = talkLayout(doc);
  doc.transact(() => {
    members.delete(member);
    for (const lane of laneIds) if (owners.get(lane) === member) owners.delete(lane);
  });
}

/** Gives a lane to a member, or frees it. */
export function setOwner(doc: Y.Doc, lane: LaneId, member: MemberId | undefined): void {
  const { owners } = talkLayout(doc);
  if (member === undefined) owners.delete(lane);
  else owners.set(lane, member);
}

/** Adds a take; the server kept its sound before. */
export function setTake(doc: Y.Doc, take: StoredTake): void {
  talkLayout(doc).takes.set(take.id, takeValue(take));
}

/** Takes a take off the board. */
export function dropTake(doc: Y.Doc, take: TakeId): void {
  talkLayout(doc).takes.delete(take);
}

/** B16: a member has a name and a role; a lane's owner is a member who may play. */
export function readTalkState(doc: Y.Doc): TalkState {
  const stored = talkLayout(doc);
  const members: Member[] = [];
  for (const [id, value] of stored.members.entries()) {
    const name = oneLine(fieldOf(value, "name"), nameMax);
    const role = roles.find((known) => known === fieldOf(value, "role"));
    if (!isStoredId(id) || name === undefined || role === undefined) continue;
    members.push({ id: memberId(id), name, role });
  }
  members.sort((a, b) => roles.indexOf(a.role) - roles.indexOf(b.role) || byId(a, b));
  const ownerOf = (lane: LaneId) =>
    members.find(({ id, role }) => id === stored.owners.get(lane) && role !== "listener")?.id;
  const among = members.slice(0, membersMax);
  return {
    members: among,
    takes: readTakes(stored.takes, among),
    owners: { upper: ownerOf("upper"), lower: ownerOf("lower") },
  };
}
