/** What every store must do, whatever it is made of; a second adapter joins the list. */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Me } from "@halflap/wire/api";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import type { DocumentKey, NewRow } from "./log-port.ts";
import type { Redeem, StoredLink } from "./people-port.ts";
import {
  hashOf,
  makeBoardId,
  makeLinkId,
  makeMemberId,
  makeSecret,
  type SecretHash,
} from "./secret.ts";
import { openStore, type Store, storeFile } from "./sqlite/store.ts";

const day = 24 * 3600 * 1000;

type Adapter = { readonly name: string; open(folder: string): Store };

const adapters: readonly Adapter[] = [
  {
    name: "SQLite",
    open: (folder) => openStore({ path: join(folder, storeFile), pagesMax: undefined }, () => day),
  },
];

for (const { name, open } of adapters) {
  describe(name, () => {
    let folder: string;
    let store: Store;
    const board = makeBoardId();
    const key: DocumentKey = { board, document: "board" };
    const leader: Me = { id: makeMemberId(), name: "Ada", role: "leader" };
    let session: SecretHash;

    beforeEach(async () => {
      folder = mkdtempSync(join(tmpdir(), "halflap-store-"));
      store = open(folder);
      session = hashOf(makeSecret());
      await store.people.makeBoard({ id: board, leader, session, at: 1, rows: [rowOf(key, 0)] });
    });

    afterEach(async () => {
      await store.close();
      rmSync(folder, { recursive: true });
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

    test("rows come back in order of appending, each document's own", async () => {
      const lane: DocumentKey = { board, document: "lane-upper" };
      await store.log.append([rowOf(key, 1), rowOf(lane, 9), rowOf(key, 2)]);
      expect(bytesOf(await store.log.load(key))).toEqual([0, 1, 2]);
      expect(bytesOf(await store.log.load(lane))).toEqual([9]);
    });

    test("everything is there after closing and opening again", async () => {
      await store.log.append([rowOf(key, 1)]);
      await store.close();
      store = open(folder);
      expect(bytesOf(await store.log.load(key))).toEqual([0, 1]);
      expect(await store.people.memberOf(session, board)).toEqual(leader);
    });

    test("a client id stays bound to the member who wrote under it first", async () => {
      const other = makeMemberId();
      const bound = (member: typeof other) => ({
        ...rowOf(key, 1),
        bindings: [{ client: 5, member }],
      });
      await store.log.append([bound(leader.id)]);
      await store.log.append([bound(other)]);
      expect((await store.log.load(key)).bindings).toEqual([{ client: 5, member: leader.id }]);
    });

    test("compaction replaces rows up to the one named and keeps later ones", async () => {
      await store.log.append([rowOf(key, 1), rowOf(key, 2)]);
      const last = (await store.log.load(key)).rows.at(-1)?.id;
      await store.log.append([rowOf(key, 3)]);
      if (last !== undefined) await store.log.compact(key, last, new Uint8Array([77]));
      expect(bytesOf(await store.log.load(key))).toEqual([77, 3]);
    });

    test("rows of a board that is gone are left out, and its members are strangers", async () => {
      await store.people.removeBoard(board);
      await store.log.append([rowOf(key, 1)]);
      expect((await store.log.load(key)).rows).toEqual([]);
      expect(await store.people.standing(board)).toBeUndefined();
      expect(await store.people.memberOf(session, board)).toBeUndefined();
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
  });
}

function rowOf(key: DocumentKey, byte: number): NewRow {
  return { key, update: new Uint8Array([byte]), bindings: [] };
}

function bytesOf({ rows }: { readonly rows: readonly { readonly update: Uint8Array }[] }) {
  return rows.flatMap(({ update }) => [...update]);
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
