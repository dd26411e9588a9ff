/** What redeeming a link comes to, decided from what a store holds, before anything is written. */
import type { Role } from "@halflap/board/board";
import type { LinkRole, Me } from "@halflap/wire/api";
import { membersPerBoardMax } from "@halflap/wire/limits";
import { type Moment, type Redeem, type Redeemed, rolesByRank } from "./people-port.ts";

export type FoundLink = {
  readonly role: LinkRole;
  readonly expiresAt: Moment;
  readonly usesLeft: number;
  readonly revoked: boolean;
};

/** What stands on the link's board. */
export type FoundPeople = {
  /** Who the session is there. */
  readonly current: Me | undefined;
  /** Whom a link to oneself brings. */
  readonly self: Me | undefined;
  readonly members: number;
};

export type Redemption =
  | {
      readonly kind: "joined";
      readonly me: Me;
      /** What there is to write; anything but "nothing" spends a use. */
      readonly write: "nothing" | "session" | "role" | "newcomer";
    }
  | Extract<Redeemed, { kind: "refused" }>;

/** Who comes of it and what there is to write, or why nobody does. */
export function redemption(link: FoundLink, people: FoundPeople, wanted: Redeem): Redemption {
  if (link.revoked) return refused("revoked");
  if (link.expiresAt <= wanted.at) return refused("expired");
  const seated = seatOf(link.role, people, wanted);
  const isSpent = seated.kind === "joined" && seated.write !== "nothing" && link.usesLeft === 0;
  return isSpent ? refused("used-up") : seated;
}

function seatOf(role: LinkRole, people: FoundPeople, { name, newcomer }: Redeem): Redemption {
  const { current, self, members } = people;
  if (role === "self") {
    if (self === undefined) return refused("unknown");
    if (current === undefined) return { kind: "joined", me: self, write: "session" };
    // Whoever is talked into opening it would be another from then on, and no more who they were.
    if (current.id !== self.id) return refused("somebody-else");
    return { kind: "joined", me: self, write: "nothing" };
  }
  if (current !== undefined) {
    if (rank(role) <= rank(current.role)) return { kind: "joined", me: current, write: "nothing" };
    return { kind: "joined", me: { ...current, role }, write: "role" };
  }
  if (name === undefined) return refused("no-name");
  if (members >= membersPerBoardMax) return refused("board-full");
  return { kind: "joined", me: { id: newcomer, name, role }, write: "newcomer" };
}

function rank(role: Role): number {
  return rolesByRank.indexOf(role);
}

/** A refusal as the port tells it. */
export function refused(because: Extract<Redeemed, { kind: "refused" }>["because"]) {
  return { kind: "refused", because } as const;
}
