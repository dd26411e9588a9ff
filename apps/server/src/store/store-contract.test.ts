/** What every store must do about boards and people, whatever it is made of. */
import type { Me } from "@halflap/wire/api";
import { linksPerBoardMax, selfLinksPerMemberMax } from "@halflap/wire/limits";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import type { Redeem, StoredLink } from "./people-port.ts";
import {
  hashOf,
  makeBoardId,
  makeLinkId,
  makeMemberId,
  makeMessageId,
  makeSecret,
  type SecretHash,
} from "./secret.ts";
import type { Store } from "./store.ts";
import { type TrialPlace, trialAdapters } from "./trial-stores.ts";

const day = 24 * 3600 * 1000;

for (const { name, make } of trialAdapters) {
  describe(name, () => {
    let place: TrialPlace;
    let store: Store;
    const board = makeBoardId();
    const leader: Me = { id: makeMemberId(), name: "Ada", role: "leader" };
    let session: SecretHash;

    beforeEach(async () => {
      place = await make(() => day);
      store = await place.open();
      session = hashOf(makeSecret());
      await store.people.makeBoard({ id: board, leader, session, at: 1, rows: [] });
    });

    afterEach(async () => {
      await store.close();
      await place.remove();
    });

    const redeem = (secret: SecretHash, more: Partial<Redeem> = {}) =>
      store.people.redeem({
        link: secret,
        session: hashOf(makeSecret()),
        at: 10,
        name: "Ben",
        newcomer: makeMemberId(),
        ...more,
      });

    const linked = async (more: Partial<StoredLink> = {}) => {
      const secret = hashOf(makeSecret());
      const link = { ...usualLink(), ...more };
      expect(await store.people.addLink(board, secret, link)).toBe("added");
      return { secret, link };
    };

    const joined = async (role: "player" | "listener" = "player") => {
      const result = await redeem((await linked({ role })).secret);
      if (result.kind !== "joined") throw new Error(result.because);
      return result.me;
    };

    test("members and their sessions are there after closing and opening again", async () => {
      await store.close();
      store = await place.open();
      expect(await store.people.memberOf(session, board)).toEqual(leader);
      expect(await store.people.memberships(session)).toEqual([{ board, me: leader }]);
      expect(await store.people.epoch(board)).toBe(1);
    });

    test("the bytes of a board's documents are told, and none of no board", async () => {
      const row = (document: "board" | "talk", bytes: number) => {
        const update = new Uint8Array(bytes);
        return { key: { board, document }, message: makeMessageId(), update, bindings: [] };
      };
      await store.log.append([row("board", 10), row("talk", 5), row("board", 20)]);
      const bytes = await store.people.documentBytes(board);
      expect([bytes.get("board"), bytes.get("talk"), bytes.get("lane-upper") ?? 0]).toEqual([
        30, 5, 0,
      ]);
      expect((await store.people.documentBytes(makeBoardId())).size).toBe(0);
    });

    test("of a board that is gone everybody is a stranger", async () => {
      await store.people.removeBoard(board);
      expect(await store.people.standing(board)).toBeUndefined();
      expect(await store.people.memberOf(session, board)).toBeUndefined();
      expect(await store.people.epoch(board)).toBeUndefined();
    });

    test("a link makes a member, and counts a use only for that", async () => {
      const { secret } = await linked({ usesLeft: 1 });
      const mine = hashOf(makeSecret());
      const first = await redeem(secret, { session: mine });
      expect(first).toMatchObject({ kind: "joined", me: { name: "Ben", role: "player" } });
      expect(await redeem(secret, { session: mine, name: "Other" })).toEqual(first);
      expect(await redeem(secret)).toEqual({ kind: "refused", because: "used-up" });
    });

    test("of more comers than uses, exactly as many as uses get in", async () => {
      const { secret } = await linked({ usesLeft: 3 });
      const all = await Promise.all(Array.from({ length: 10 }, () => redeem(secret)));
      expect(all.filter(({ kind }) => kind === "joined")).toHaveLength(3);
      expect((await store.people.standing(board))?.members).toHaveLength(4);
    });

    test("a link ends at its time, and at once when revoked", async () => {
      const { secret, link } = await linked({ expiresAt: 10 });
      expect(await redeem(secret, { at: 9 })).toMatchObject({ kind: "joined" });
      expect(await redeem(secret, { at: 10 })).toMatchObject({ because: "expired" });
      expect(await store.people.revokeLink(board, link.id)).toBe(true);
      expect(await redeem(secret, { at: 9 })).toMatchObject({ because: "revoked" });
      expect(await redeem(hashOf(makeSecret()))).toMatchObject({ because: "unknown" });
    });

    test("joining again raises a role and never lowers one", async () => {
      const mine = hashOf(makeSecret());
      const listener = (await linked({ role: "listener" })).secret;
      const player = (await linked({ role: "player" })).secret;
      const roles: unknown[] = [];
      for (const secret of [listener, player, listener]) {
        const result = await redeem(secret, { session: mine });
        roles.push(result.kind === "joined" ? result.me.role : result.because);
      }
      expect(roles).toEqual(["listener", "player", "player"]);
      expect(await redeem(listener, { session })).toMatchObject({ me: leader });
    });

    test("a link to oneself brings the same member to another session", async () => {
      const { secret } = await linked({ role: "self", member: leader.id, usesLeft: 1 });
      const phone = hashOf(makeSecret());
      const result = await redeem(secret, { session: phone, name: undefined });
      expect(result).toMatchObject({ kind: "joined", me: leader });
      expect(await store.people.memberOf(phone, board)).toEqual(leader);
      expect((await store.people.standing(board))?.members).toHaveLength(1);
    });

    test("a link to oneself makes no member another, and tells its own nothing new", async () => {
      const listener = await joined("listener");
      const mine = { role: "self", member: listener.id, usesLeft: 1 } as const;
      const { secret } = await linked(mine);
      expect(await redeem(secret, { session })).toEqual({
        kind: "refused",
        because: "somebody-else",
      });
      expect(await store.people.memberOf(session, board)).toEqual(leader);
      const phone = hashOf(makeSecret());
      expect(await redeem(secret, { session: phone })).toMatchObject({ me: listener });
      const again = (await linked(mine)).secret;
      expect(await redeem(again, { session: phone })).toMatchObject({ me: listener });
      expect(await redeem(again)).toMatchObject({ me: listener });
    });

    test("of links to oneself the newest hold, and none takes an invitation's place", async () => {
      const listener = await joined("listener");
      const mine = { role: "self", member: listener.id, usesLeft: 1 } as const;
      const others = await linked({ role: "self", member: leader.id, usesLeft: 1 });
      const all: SecretHash[] = [];
      for (let i = 0; i < linksPerBoardMax; i += 1) {
        all.push((await linked({ ...mine, madeAt: i + 1 })).secret);
      }
      const kept = (await store.people.links(board)).filter(({ member }) => member === listener.id);
      expect(kept).toHaveLength(selfLinksPerMemberMax);
      for (const secret of all.slice(-selfLinksPerMemberMax)) {
        expect(await redeem(secret)).toMatchObject({ kind: "joined", me: listener });
      }
      expect(await redeem(all.at(-1 - selfLinksPerMemberMax) ?? others.secret)).toMatchObject({
        because: "unknown",
      });
      expect(await redeem(others.secret)).toMatchObject({ kind: "joined", me: leader });
      // One was made when the listener joined.
      for (let i = 1; i < linksPerBoardMax; i += 1) await linked();
      const more = { ...usualLink(), id: makeLinkId() };
      expect(await store.people.addLink(board, hashOf(makeSecret()), more)).toBe("too-many");
    });

    test("a dead link to oneself makes room before one that holds", async () => {
      const mine = { role: "self", member: leader.id, usesLeft: 1 } as const;
      const first = await linked({ ...mine, madeAt: 1 });
      for (let i = 2; i < 2 + selfLinksPerMemberMax; i += 1) {
        expect(await redeem((await linked({ ...mine, madeAt: i })).secret)).toMatchObject({
          kind: "joined",
        });
      }
      expect(await redeem(first.secret)).toMatchObject({ kind: "joined", me: leader });
    });

    test("a newcomer without a name is asked for one", async () => {
      const { secret } = await linked();
      expect(await redeem(secret, { name: undefined })).toMatchObject({ because: "no-name" });
    });

    test("of concurrent claims one wins, and a member owns one lane at most", async () => {
      const players = [await joined(), await joined(), await joined()];
      const claims = await Promise.all(
        players.map(({ id }) => store.people.claim(board, "upper", id)),
      );
      expect([...claims].sort()).toEqual(["claimed", "taken", "taken"]);
      const winner = players[claims.indexOf("claimed")]?.id ?? leader.id;
      expect(await store.people.claim(board, "upper", winner)).toBe("claimed");
      expect(await store.people.claim(board, "lower", winner)).toBe("has-another");
    });

    test("a name longer than talk holds is the same short one for all who ask", async () => {
      await store.people.rename(board, leader.id, "\u{1f600}".repeat(40));
      const name = "\u{1f600}".repeat(30);
      const me = { ...leader, name };
      expect(await store.people.memberOf(session, board)).toEqual(me);
      expect(await store.people.memberships(session)).toEqual([{ board, me }]);
      expect((await store.people.standing(board))?.members).toEqual([me]);
    });

    test("whoever is gone, or whose board is, claims no lane and makes no link", async () => {
      const player = await joined();
      const claim = () => store.people.claim(board, "upper", player.id);
      const link = (role: "self" | "player") => {
        const made = { ...usualLink(), role, member: role === "self" ? player.id : undefined };
        return store.people.addLink(board, hashOf(makeSecret()), made);
      };
      await store.people.removeMember(board, player.id);
      expect([await claim(), await link("self"), await link("player")]).toEqual([
        ...["gone", "gone", "added"],
      ]);
      await store.people.removeBoard(board);
      expect([await claim(), await link("self"), await link("player")]).toEqual([
        ...["gone", "gone", "gone"],
      ]);
    });

    test("a lane moves only from the owner seen, to somebody who plays", async () => {
      const [player, listener] = [await joined(), await joined("listener")];
      await store.people.claim(board, "upper", leader.id);
      const move = (from: typeof player.id | undefined, to: typeof player.id | undefined) =>
        store.people.moveLane(board, "upper", from, to);
      expect(await move(player.id, player.id)).toBe("changed-meanwhile");
      expect(await move(leader.id, listener.id)).toBe("may-not-play");
      expect(await move(leader.id, player.id)).toBe("moved");
      expect((await store.people.standing(board))?.owners.upper).toBe(player.id);
      expect(await move(player.id, undefined)).toBe("moved");
    });

    test("a removed member loses session, lane and own links; leaders stay", async () => {
      const player = await joined();
      const self = await linked({ role: "self", member: player.id });
      await store.people.claim(board, "lower", player.id);
      expect(await store.people.removeMember(board, player.id)).toBe(true);
      expect((await store.people.standing(board))?.owners.lower).toBeUndefined();
      expect(await redeem(self.secret)).toMatchObject({ because: "unknown" });
      expect(await store.people.removeMember(board, leader.id)).toBe(false);
    });

    test("the lead goes from the leader to a player, who then alone has it", async () => {
      const [player, listener] = [await joined(), await joined("listener")];
      expect(await store.people.handLeader(board, leader.id, listener.id)).toBe(false);
      expect(await store.people.handLeader(board, player.id, player.id)).toBe(false);
      expect(await store.people.handLeader(board, leader.id, player.id)).toBe(true);
      const roles = (await store.people.standing(board))?.members.map(({ id, role }) => [id, role]);
      expect(roles).toContainEqual([player.id, "leader"]);
      expect(roles).toContainEqual([leader.id, "player"]);
    });

    test("each write to a board's people raises its count, and no other board's", async () => {
      const { people } = store;
      const other = makeBoardId();
      const session = hashOf(makeSecret());
      await people.makeBoard({ id: other, leader, session, at: 1, rows: [] });
      const { secret, link } = await linked();
      const player = await joined();
      const writes: readonly (() => Promise<unknown>)[] = [
        () => people.rename(board, player.id, "Bo"),
        () => redeem(secret),
        () => people.claim(board, "upper", player.id),
        () => people.moveLane(board, "upper", player.id, undefined),
        () => people.handLeader(board, leader.id, player.id),
        () => people.removeMember(board, leader.id),
        () => people.revokeLink(board, link.id),
      ];
      const untouched = (await people.peopleVersion([other]))[0];
      for (const write of writes) {
        const [before = 0] = await people.peopleVersion([board]);
        await write();
        const after = await people.peopleVersion([makeBoardId(), board, other]);
        expect([after[0], after[2]]).toEqual([0, untouched]);
        expect(after[1]).toBeGreaterThan(before);
      }
    });
  });
}

function usualLink(): StoredLink {
  return {
    id: makeLinkId(),
    role: "player",
    member: undefined,
    madeAt: 1,
    expiresAt: day,
    usesLeft: 10,
    revoked: false,
  };
}
