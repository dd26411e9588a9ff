/**
 * One seeded schedule over two nodes: pages of two members edit one document, come and go between
 * the nodes, which can't reach the store at times, and die. At the end all agree with the log, and
 * nobody was refused anything.
 */
import type { MemberId } from "@halflap/board/board";
import { compactionOf } from "@halflap/server/compaction";
import { type DocumentKey, StoreAway } from "@halflap/server/log-port";
import type { Store } from "@halflap/server/ports";
import { hashOf, makeBoardId, makeLinkId, makeMemberId, makeSecret } from "@halflap/server/secret";
import * as Y from "yjs";
import { type Chance, seeded } from "../support/seeded.ts";
import { FakePage } from "./fake-page.ts";
import { NodeLife, type NodeVariant } from "./node-life.ts";
import { stateOf } from "./schedule.ts";
import { steppingClock, turns } from "./server-life.ts";
import { sharedLog } from "./shared-log.ts";

const stepCount = 40;
/** Refusals after which the same is asked for again. */
const passing: ReadonlySet<string> = new Set(["store-full", "others-first"]);
/** So often all are let through at the end before what still waits counts as stuck. */
const settlingMax = 40;

export type NodesResult = {
  readonly deaths: number;
  /** Pages that went from one node to the other. */
  readonly moves: number;
  /** Sentences; none when all is well. */
  readonly faults: readonly string[];
};

type Shared = Pick<Store, "log" | "people">;

/** Runs the schedule of a seed over a store in memory, the same way each time. */
export async function runNodes(
  store: Store,
  seed: number,
  variant: NodeVariant = "as built",
): Promise<NodesResult> {
  const { key, members } = await boardOfTwo(store);
  const shared = { log: sharedLog(store.log), people: store.people };
  const stage = new Stage(shared, key, members, seeded(seed), variant);
  for (let step = 0; step < stepCount; step += 1) await stage.step();
  await stage.settle();
  return stage.result();
}

async function boardOfTwo({ people }: Store) {
  const board = makeBoardId();
  const leader = { id: makeMemberId(), name: "Ada", role: "leader" } as const;
  const session = hashOf(makeSecret());
  await people.makeBoard({ id: board, leader, session, at: 1, rows: [] });
  const secret = hashOf(makeSecret());
  await people.addLink(board, secret, {
    id: makeLinkId(),
    role: "player",
    member: undefined,
    madeAt: 1,
    expiresAt: 10,
    usesLeft: 1,
    revoked: false,
  });
  const ben = makeMemberId();
  const joins = { link: secret, session: hashOf(makeSecret()), at: 2, name: "Ben", newcomer: ben };
  await people.redeem(joins);
  const key: DocumentKey = { board, document: "board" };
  return { key, members: [leader.id, ben, leader.id, ben] };
}

class Stage {
  private readonly store: Shared;
  private readonly key: DocumentKey;
  private readonly chance: Chance;
  private readonly variant: NodeVariant;
  private readonly pages: readonly FakePage[];
  private readonly nodes: NodeLife[];
  /** At which node each page is, or was. */
  private readonly places = new Map<FakePage, NodeLife>();
  private readonly faults: string[] = [];
  private edits = 0;
  private deaths = 0;
  private moves = 0;
  private clients = 0;

  constructor(
    store: Shared,
    key: DocumentKey,
    members: readonly MemberId[],
    chance: Chance,
    variant: NodeVariant,
  ) {
    this.store = store;
    this.key = key;
    this.chance = chance;
    this.variant = variant;
    this.nodes = [0, 1].map(() => new NodeLife(store, chance, variant));
    this.pages = members.map(
      (member) =>
        new FakePage({
          member,
          client: this.freshClient(),
          now: steppingClock(100),
          isAsked: true,
        }),
    );
  }

  async step(): Promise<void> {
    const { chance } = this;
    const page = chance.pick(this.pages);
    const node = chance.pick(this.nodes);
    const dice = chance.below(100);
    if (dice < 42) this.edit(page);
    else if (dice < 55) page.cut();
    else if (dice < 75) await this.connect(page, node);
    else if (dice < 78) page.reload(this.freshClient());
    else if (dice < 82) node.isAway = !node.isAway;
    else if (dice < 86) await this.fold();
    else if (dice < 88) await this.die(chance.below(this.nodes.length));
    else if (dice < 91) retry(node);
    else void node.follower.look();
    for (const each of this.pages) this.letThrough(each, chance.below(5));
    await turns(chance.below(4));
  }

  /** Store and lines hold: until nothing is on its way any more. */
  async settle(): Promise<void> {
    for (const node of this.nodes) node.isAway = false;
    let quietRounds = 0;
    for (let round = 0; round < settlingMax; round += 1) {
      for (const page of this.pages) await this.connect(page, this.chance.pick(this.nodes));
      for (const node of this.nodes) await node.saveLoop.flush();
      for (const node of this.nodes) retry(node);
      for (const node of this.nodes) await node.follower.look();
      for (const page of this.pages) this.letThrough(page, Number.POSITIVE_INFINITY);
      await turns(2);
      quietRounds = this.pages.every((page) => page.isQuiet) ? quietRounds + 1 : 0;
      if (quietRounds === 3) return;
    }
    this.faults.push("something still waits when all holds");
  }

  async result(): Promise<NodesResult> {
    const wanted = stateOf(await this.replay());
    for (const [number, page] of this.pages.entries()) {
      if (stateOf(page.doc) !== wanted) this.faults.push(`page ${number} differs from the log`);
      const refused = page.refusals.filter((why) => !passing.has(why));
      if (refused.length > 0) this.faults.push(`page ${number} was refused: ${refused.join()}`);
    }
    for (const page of this.pages) page.cut();
    for (const node of this.nodes) this.noteNode(node);
    return { deaths: this.deaths, moves: this.moves, faults: this.faults };
  }

  private edit(page: FakePage): void {
    const { chance } = this;
    this.edits += 1;
    page.doc.transact(() => {
      const list = page.doc.getArray<string>("order");
      const words = page.doc.getText("words");
      const place = chance.below(list.length + 1);
      const kind = chance.below(5);
      if (kind === 0) list.insert(place, [`e${this.edits}`]);
      else if (kind === 1 && place < list.length) list.delete(place);
      else if (kind === 2) words.insert(chance.below(words.length + 1), `w${this.edits} `);
      else if (kind === 3 && words.length > 2) words.delete(chance.below(words.length - 1), 1);
      else page.doc.getMap("keys").set(`k${chance.below(4)}`, this.edits);
    });
  }

  /** Away from its store a node lets nobody in to what it does not have open. */
  private async connect(page: FakePage, node: NodeLife): Promise<void> {
    if (page.isConnected) return;
    try {
      await page.connect(node.rooms, this.key);
    } catch (fault) {
      if (!(fault instanceof StoreAway)) this.faults.push(`a page is not let in: ${String(fault)}`);
      return;
    }
    const before = this.places.get(page);
    if (before !== undefined && before !== node) this.moves += 1;
    this.places.set(page, node);
  }

  private letThrough(page: FakePage, most: number): void {
    for (let left = most; left > 0 && page.isOnTheWay; left -= 1) {
      page.deliver(this.chance.happens(0.5) ? "to-server" : "to-page");
    }
  }

  private async fold(): Promise<void> {
    const { rows } = await this.store.log.load(this.key);
    const folded = compactionOf(rows);
    if (folded !== undefined) {
      await this.store.log.compact(this.key, folded.last, folded.snapshot);
    }
  }

  /** What was said to be saved must be in the log, whatever the node had still to do. */
  private async die(number: number): Promise<void> {
    this.deaths += 1;
    const node = this.nodes[number];
    node?.die();
    const stored = Y.snapshot(await this.replay());
    for (const [i, page] of this.pages.entries()) {
      if (page.saved !== undefined && !Y.snapshotContainsUpdate(stored, page.saved)) {
        this.faults.push(`page ${i} was told that something is saved that is not`);
      }
      if (this.places.get(page) === node) page.crash();
    }
    if (node !== undefined) this.noteNode(node);
    this.nodes[number] = new NodeLife(this.store, this.chance, this.variant);
  }

  private noteNode({ faults }: NodeLife): void {
    this.faults.push(...faults.map((fault) => `in a node: ${String(fault)}`));
  }

  private async replay(): Promise<Y.Doc> {
    const doc = new Y.Doc();
    for (const { update } of (await this.store.log.load(this.key)).rows) {
      Y.applyUpdate(doc, update);
    }
    return doc;
  }

  private freshClient(): number {
    this.clients += 1;
    return this.clients * 1_000 + this.chance.below(1_000);
  }
}

function retry(node: NodeLife): void {
  for (const room of node.rooms.open()) room.retry();
}
