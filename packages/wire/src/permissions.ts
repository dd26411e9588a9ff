/** Who may do what: one table for the server that enforces it and the page that explains it. */
import type { LaneId, MemberId, Role } from "@halflap/board/board";
import type { DocumentName } from "@halflap/board/documents";

export const actions = [
  "read",
  "hear-take",
  "record-take",
  "remove-own-take",
  "remove-any-take",
  "edit-chart",
  "claim-lane",
  "release-lane",
  "hand-over-lane",
  "reassign-lane",
  "invite",
  "see-links",
  "revoke-link",
  "remove-member",
  "hand-over-leader",
  "rename-self",
  "add-own-device",
  "delete-board",
  "play-together",
] as const;
export type Action = (typeof actions)[number];

const everybody: readonly Action[] = [
  "read",
  "hear-take",
  "rename-self",
  "add-own-device",
  "play-together",
];
const playing: readonly Action[] = [
  ...everybody,
  "record-take",
  "remove-own-take",
  "edit-chart",
  "claim-lane",
  "release-lane",
  "hand-over-lane",
];

/** The table itself: what each role may do. */
export const allowed: Readonly<Record<Role, ReadonlySet<Action>>> = {
  leader: new Set(actions),
  player: new Set(playing),
  listener: new Set(everybody),
};

/** Whether a role may take an action. Lane actions also need the lane to be one's own, or free. */
export function mayTake(role: Role, action: Action): boolean {
  return allowed[role].has(action);
}

export type LaneOwners = Readonly<Record<LaneId, MemberId | undefined>>;

/**
 * Whether a member's updates to a document are accepted: the chart by role, a lane by ownership,
 * talk by nobody.
 */
export function mayWrite(
  document: DocumentName,
  member: { readonly id: MemberId; readonly role: Role },
  owners: LaneOwners,
): boolean {
  switch (document) {
    case "board":
      return mayTake(member.role, "edit-chart");
    case "lane-upper":
      return member.role !== "listener" && owners.upper === member.id;
    case "lane-lower":
      return member.role !== "listener" && owners.lower === member.id;
    case "talk":
      return false;
  }
}
