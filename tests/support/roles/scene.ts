/** One board and everybody who could knock at it, made in the store itself: no door is asked. */
import type { LaneId, Role } from "@halflap/board/board";
import { type BoardDocuments, documentNames, emptyDocuments } from "@halflap/board/documents";
import { decodeTakeHead } from "@halflap/board/take";
import type { Store } from "@halflap/server/ports";
import {
  hashOf,
  makeBoardId,
  makeLinkId,
  makeMemberId,
  makeMessageId,
  makeSecret,
  makeTakeId,
  type Secret,
} from "@halflap/server/secret";
import type { BoardId, LinkId, Me, TakeCard } from "@halflap/wire/api";
import * as Y from "yjs";
import { Visitor } from "../browser-session.ts";
import { usualHead, wavOf } from "../take-sender.ts";

/** The seven who knock. "Laned" is a player who has the upper lane; the lower one is free. */
export const knockers = [
  "stranger",
  "outsider",
  "removed",
  "listener",
  "player",
  "laned",
  "leader",
] as const;
export type Knocker = (typeof knockers)[number];

export type Person = { readonly visitor: Visitor; readonly me: Me };

export type Scene = {
  readonly board: BoardId;
  readonly people: Readonly<Record<Knocker, Person>>;
  /** An open link for players, and its secret. */
  readonly link: { readonly id: LinkId; readonly secret: Secret };
  /** A take that each of them recorded here, when they still might; else the removed one's. */
  readonly takes: Readonly<Record<Knocker, TakeCard>>;
};

const dayMs = 24 * 3600 * 1000;

/** A fresh board with everybody around it. */
export async function makeScene(store: Store, address: string): Promise<Scene> {
  const { board, leader } = await newBoard(store, address, "Ada");
  const joined = (role: "player" | "listener", name: string) =>
    join(store, address, { board, role, name });
  const people = {
    stranger: { visitor: new Visitor(address), me: personOf("Sam", "listener") },
    outsider: (await newBoard(store, address, "Zoe")).leader,
    removed: await joined("player", "Rik"),
    listener: await joined("listener", "Cleo"),
    player: await joined("player", "Ben"),
    laned: await joined("player", "Lou"),
    leader,
  };
  await claim(store, board, "upper", people.laned.me);
  const link = await addLink(store, board, "player");
  const pairs: (readonly [Knocker, TakeCard])[] = [];
  for (const who of knockers) {
    const isForeign = who === "stranger" || who === "outsider";
    const player = isForeign ? people.removed : people[who];
    pairs.push([who, await keep(store, board, player.me)]);
  }
  await store.people.removeMember(board, people.removed.me.id);
  return { board, people, link, takes: Object.fromEntries(pairs) as Scene["takes"] };
}

/** Everything about a scene's board that somebody could have changed, in words to compare. */
export async function stateOf({ people, takes, log }: Store, { board }: Scene): Promise<string> {
  const documents = emptyDocuments();
  for (const document of documentNames) {
    const { rows } = await log.load({ board, document });
    for (const { update } of rows) Y.applyUpdate(documents[document], update);
  }
  return JSON.stringify([
    await people.standing(board),
    await people.links(board),
    await takes.list(board),
    marksIn(documents),
  ]);
}

/** The root under which trial updates leave their marks; no board has one of the name. */
export const trialRoot = "trial";

function marksIn(documents: BoardDocuments): readonly unknown[] {
  return documentNames.map((name) => documents[name].getMap(trialRoot).toJSON());
}

function personOf(name: string, role: Role): Me {
  return { id: makeMemberId(), name, role };
}

function withCookie(address: string, secret: Secret): Visitor {
  const visitor = new Visitor(address);
  visitor.cookie = `halflap=${secret}`;
  return visitor;
}

async function newBoard(store: Store, address: string, name: string) {
  const board = makeBoardId();
  const secret = makeSecret();
  const me = personOf(name, "leader");
  const rows = documentNames.map((document) => ({
    key: { board, document },
    message: makeMessageId(),
    update: Y.encodeStateAsUpdate(emptyDocuments()[document]),
    bindings: [],
  }));
  const session = hashOf(secret);
  await store.people.makeBoard({ id: board, leader: me, session, at: Date.now(), rows });
  return { board, leader: { visitor: withCookie(address, secret), me } };
}

async function join(
  { people }: Store,
  address: string,
  { board, role, name }: { board: BoardId; role: "player" | "listener"; name: string },
): Promise<Person> {
  const { secret: link } = await addLink({ people }, board, role);
  const secret = makeSecret();
  const joined = await people.redeem({
    link: hashOf(link),
    session: hashOf(secret),
    at: Date.now(),
    name,
    newcomer: makeMemberId(),
  });
  if (joined.kind !== "joined") throw new Error(`${name} can't join: ${joined.because}`);
  return { visitor: withCookie(address, secret), me: joined.me };
}

async function addLink({ people }: Pick<Store, "people">, board: BoardId, role: Role) {
  const secret = makeSecret();
  const id = makeLinkId();
  const madeAt = Date.now();
  const times = { madeAt, expiresAt: madeAt + dayMs };
  const kind = role === "listener" ? "listener" : "player";
  const link = {
    id,
    role: kind,
    member: undefined,
    ...times,
    usesLeft: 5,
    revoked: false,
  } as const;
  await people.addLink(board, hashOf(secret), link);
  return { id, secret };
}

async function claim({ people }: Store, board: BoardId, lane: LaneId, { id }: Me): Promise<void> {
  const claimed = await people.claim(board, lane, id);
  if (claimed !== "claimed") throw new Error(`the ${lane} lane is ${claimed}`);
}

async function keep({ takes }: Store, board: BoardId, { id: from }: Me): Promise<TakeCard> {
  const sound = wavOf(400);
  const head = decodeTakeHead(usualHead);
  if (!head.ok) throw new Error(`${head.error.path} ${head.error.words}`);
  const kept = { id: makeTakeId(), from, at: Date.now(), type: "audio/wav", size: 400 } as const;
  const card = { ...head.value, ...kept };
  if ((await takes.keep({ board, card, sound })) !== "kept") throw new Error("no room for a take");
  return card;
}
