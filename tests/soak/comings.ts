/**
 * One seeded schedule of four pages that come to a document and go, also before they are in, while
 * it is loaded, stored and let go, all of it late. Whoever is in has all that was stored when they
 * came, nobody sits in a room of their own, and at the end no room is left.
 */
import type { DocumentKey, UpdateLog } from "@halflap/server/log-port";
import { rowId } from "@halflap/server/log-port";
import type { Store } from "@halflap/server/ports";
import { type Lease, Rooms, type RoomsPorts } from "@halflap/server/rooms";
import { SaveLoop, tickMs } from "@halflap/server/save-loop";
import { hashOf, makeBoardId, makeMemberId, makeSecret } from "@halflap/server/secret";
import * as Y from "yjs";
import { type Chance, seeded } from "../support/seeded.ts";
import { FakePage } from "./fake-page.ts";
import { steppingClock, turns } from "./server-life.ts";

/** What a check must catch: each is wrong in one place. */
export const wrongRooms = [
  /** Whoever comes while another leaves gets a room of their own. */
  "lets go of a room that somebody is about to enter",
  /** Whoever comes first finds the room as if nothing were stored. */
  "lets people in before it is loaded",
] as const;
export type RoomsVariant = (typeof wrongRooms)[number] | "as built";

export type ComingsResult = {
  readonly comings: number;
  /** Pages that left before they were in. */
  readonly hasty: number;
  readonly faults: readonly string[];
};

type Tenancy = Pick<Rooms, "lease"> & { readonly size: number };
type Guest = { page: FakePage; coming: Promise<void> | undefined; isLeaving: boolean };

const pageCount = 4;
const stepCount = 24;
const settlingMax = 60;

/** Runs the schedule of a seed over a store in memory, the same way each time. */
export async function runComings(
  store: Store,
  seed: number,
  variant: RoomsVariant = "as built",
): Promise<ComingsResult> {
  const board = makeBoardId();
  const leader = { id: makeMemberId(), name: "Ada", role: "leader" } as const;
  const session = hashOf(makeSecret());
  await store.people.makeBoard({ id: board, leader, session, at: 1, rows: [] });
  const stage = new Stage(store, { board, document: "board" }, seeded(seed), variant, leader.id);
  for (let step = 0; step < stepCount; step += 1) await stage.step();
  const result = await stage.result();
  await store.people.removeBoard(board);
  return result;
}

class Stage {
  private readonly chance: Chance;
  private readonly key: DocumentKey;
  private readonly log: UpdateLog;
  private readonly rooms: Tenancy;
  private readonly saveLoop: SaveLoop;
  private readonly guests: readonly Guest[];
  private readonly faults: string[] = [];
  private readonly member: ConstructorParameters<typeof FakePage>[0]["member"];
  private clients = 0;
  private written = 0;
  private comings = 0;
  private hasty = 0;

  constructor(
    store: Store,
    key: DocumentKey,
    chance: Chance,
    variant: RoomsVariant,
    member: ConstructorParameters<typeof FakePage>[0]["member"],
  ) {
    this.chance = chance;
    this.key = key;
    this.log = store.log;
    const log = late(store.log, chance, variant);
    const onFault = (fault: unknown) => this.faults.push(`a fault: ${String(fault)}`);
    this.saveLoop = new SaveLoop({ log, now: steppingClock(tickMs), onFault });
    const ports = { log, people: store.people, saveLoop: this.saveLoop, onFault };
    const isForgetful = variant === "lets go of a room that somebody is about to enter";
    this.rooms = isForgetful ? new ForgetfulRooms(ports) : new Rooms(ports);
    this.member = member;
    this.guests = Array.from({ length: pageCount }, () => {
      return { page: this.makePage(), coming: undefined, isLeaving: false };
    });
  }

  async step(): Promise<void> {
    const { chance } = this;
    if (chance.happens(0.1)) await this.lookIn();
    const guest = chance.pick(this.guests);
    if (guest.page.isConnected) {
      if (chance.happens(0.6)) this.write(guest.page);
      if (chance.happens(0.7)) guest.page.cut();
    } else if (guest.coming === undefined) {
      guest.coming = this.come(guest);
    } else {
      guest.isLeaving = true;
    }
    for (const { page } of this.guests) this.letThrough(page, chance.below(4));
    await turns(chance.below(4));
  }

  async result(): Promise<ComingsResult> {
    await this.settle();
    const wanted = wordsIn(await this.stored());
    for (const { page } of this.guests) {
      if (wordsIn(page.doc) !== wanted) this.faults.push("a page differs from the store");
    }
    if (this.written !== wanted.split(" ").filter(Boolean).length)
      this.faults.push("something written is not in the store");
    for (const { page } of this.guests) page.cut();
    for (let left = settlingMax; left > 0 && this.rooms.size > 0; left -= 1) await turns(1);
    if (this.rooms.size > 0) this.faults.push("a room is left though nobody is there");
    return { comings: this.comings, hasty: this.hasty, faults: this.faults };
  }

  /** Everybody comes and stays, until nothing is on its way any more, twice in a row. */
  private async settle(): Promise<void> {
    let calm = 0;
    for (let left = settlingMax; left > 0 && calm < 2; left -= 1) {
      for (const guest of this.guests) {
        guest.isLeaving = false;
        await guest.coming;
        if (!guest.page.isConnected) await this.come(guest);
      }
      await this.saveLoop.flush();
      await turns(1);
      calm = this.guests.some(({ page }) => page.isOnTheWay) ? 0 : calm + 1;
      for (const { page } of this.guests) this.letThrough(page, Number.POSITIVE_INFINITY);
    }
    if (calm < 2) this.faults.push("something is still on its way when everybody stays");
  }

  private async come(guest: Guest): Promise<void> {
    const { page } = guest;
    const before = await this.stored();
    await turns(1); // a room hears a turn later what was stored
    await page.connect(this.rooms, this.key);
    guest.coming = undefined;
    this.comings += 1;
    if (guest.isLeaving) {
      guest.isLeaving = false;
      this.hasty += 1;
      page.cut();
      return;
    }
    this.letThrough(page, Number.POSITIVE_INFINITY);
    if (!Y.snapshotContainsUpdate(Y.snapshot(page.doc), Y.encodeStateAsUpdate(before)))
      this.faults.push("whoever came has not all that was stored before");
  }

  /** Everybody who is in leaves; then somebody comes who was never here, looks, and goes. */
  private async lookIn(): Promise<void> {
    for (const { page } of this.guests) page.cut();
    await this.saveLoop.flush();
    await turns(6);
    const newcomer = { page: this.makePage(), coming: undefined, isLeaving: false };
    await this.come(newcomer);
    newcomer.page.cut();
  }

  private makePage(): FakePage {
    this.clients += 1_000;
    const { member, clients: client } = this;
    return new FakePage({ member, client, now: steppingClock(1_000), isAsked: true });
  }

  private write(page: FakePage): void {
    this.written += 1;
    page.doc.getMap("words").set(`w${this.written}`, this.written);
  }

  private letThrough(page: FakePage, most: number): void {
    for (let left = most; left > 0 && page.isOnTheWay; left -= 1) {
      page.deliver(this.chance.happens(0.5) ? "to-server" : "to-page");
    }
  }

  private async stored(): Promise<Y.Doc> {
    const doc = new Y.Doc();
    for (const { update } of (await this.log.load(this.key)).rows) Y.applyUpdate(doc, update);
    return doc;
  }
}

/** The same log, with every answer some turns late. */
function late(log: UpdateLog, chance: Chance, variant: RoomsVariant): UpdateLog {
  const wait = () => turns(chance.below(6));
  const isHasty = variant === "lets people in before it is loaded";
  return {
    ...log,
    append: (rows) => wait().then(() => log.append(rows)),
    load: async (key) => {
      if (isHasty) return { rows: [], bindings: [], head: rowId(0) };
      await wait();
      return log.load(key);
    },
  };
}

/** Makes rooms anew for whoever comes while somebody leaves. */
class ForgetfulRooms implements Tenancy {
  private readonly ports: RoomsPorts;
  private readonly all: Rooms[];
  private leaving = 0;

  constructor(ports: RoomsPorts) {
    this.ports = ports;
    this.all = [new Rooms(ports)];
  }

  get size(): number {
    return this.all.reduce((sum, { size }) => sum + size, 0);
  }

  async lease(key: DocumentKey): Promise<Lease> {
    if (this.leaving > 0) this.all.push(new Rooms(this.ports));
    const rooms = this.all.at(-1) ?? new Rooms(this.ports);
    const { room, release } = await rooms.lease(key);
    const leave = () => {
      this.leaving += 1;
      release();
      void turns(3).then(() => {
        this.leaving -= 1;
      });
    };
    return { room, release: leave };
  }
}

function wordsIn(doc: Y.Doc): string {
  return Object.keys(doc.getMap("words").toJSON()).sort().join(" ");
}
