/**
 * One document while somebody has it open: what is known of it, who sits in it, and what goes from
 * one to another.
 */
import type { MemberId } from "@halflap/board/board";
import type { Me } from "@halflap/wire/api";
import {
  clientsPerDocumentMax,
  documentBytesMax,
  frameBytesMax,
  seatsPerMemberMax,
  updateBytesMax,
} from "@halflap/wire/limits";
import { closeCode } from "@halflap/wire/messages";
import { type LaneOwners, mayWrite } from "@halflap/wire/permissions";
import type { DocumentKey, StoredDocument, StoredRow } from "../store/log-port.ts";
import { type Admission, admit } from "./admission.ts";
import { type DecodedUpdate, decodeUpdate } from "./decoded-update.ts";
import { DocumentBytes } from "./document-bytes.ts";
import {
  awarenessFrame,
  type ClientFrame,
  decodeFrame,
  step1Frame,
  step2Frame,
  updateFrame,
} from "./frames.ts";
import { KnownState } from "./known-state.ts";
import { Presences } from "./presences.ts";
import type { Outcome, SaveLoop } from "./save-loop.ts";
import type { Seat } from "./seat.ts";
import { Together } from "./together.ts";

export type RoomPorts = {
  readonly saveLoop: SaveLoop;
  /** A member as of now; undefined once removed. */
  memberNow(id: MemberId): Me | undefined;
  ownersNow(): LaneOwners;
};

type TogetherFrame = Extract<ClientFrame, { kind: "clock-question" | "together-ask" }>;
type Fresh = Extract<Admission, { kind: "new" }>;

/** In memory while it has a lease; everything it is told twice is harmless. */
export class Room {
  readonly key: DocumentKey;
  readonly seats = new Set<Seat>();
  /** What is on disk, as bytes. */
  bytes: DocumentBytes;
  /** What is on disk, as clocks and deletions. */
  private readonly durable = new KnownState();
  /** The same with what is on its way to the disk. */
  private known: KnownState;
  private onTheWay = 0;
  private readonly owners: Map<number, MemberId>;
  /**
   * Whose presence named a client id first. It stays when the socket ends: a member who is offline
   * for a while must not find that somebody took the id under which they went on writing.
   */
  private readonly named = new Map<number, MemberId>();
  private readonly presences = new Presences();
  /** Over the board's document alone. */
  private readonly together: Together | undefined;
  private readonly ports: RoomPorts;

  constructor(key: DocumentKey, stored: StoredDocument, ports: RoomPorts) {
    this.key = key;
    this.ports = ports;
    this.together = key.document === "board" ? new Together() : undefined;
    this.bytes = new DocumentBytes(stored.rows.map(({ update }) => update));
    this.owners = new Map(stored.bindings.map(({ client, member }) => [client, member]));
    for (const { update } of stored.rows) this.durable.add(ownParts(update));
    this.known = this.durable.copy();
  }

  get isIdle(): boolean {
    return this.seats.size === 0 && this.onTheWay === 0;
  }

  /** Whether rows are still on their way to the disk. */
  get isSaving(): boolean {
    return this.onTheWay > 0;
  }

  /**
   * Seats somebody: our step 1 first, so that offline edits come, then who is here. Turns away
   * whoever was removed between the door and here, and a member who sits here too often already.
   */
  enter(seat: Seat): void {
    if (this.ports.memberNow(seat.member) === undefined) {
      seat.close(closeCode.revoked, "no longer a member of this board");
      return;
    }
    const others = [...this.seats].filter(({ member }) => member === seat.member);
    if (others.length >= seatsPerMemberMax) {
      seat.close(closeCode.tryLater, "open too often");
      return;
    }
    this.seats.add(seat);
    seat.send(step1Frame(this.known.stateVector()));
    seat.send(this.presences.frame());
    if (this.together) seat.sendOurs(this.together.frame(seat.clock()));
  }

  leave(seat: Seat): void {
    if (!this.seats.delete(seat)) return;
    seat.leave();
    const gone = this.presences.leave(seat);
    if (gone !== undefined) this.tell(awarenessFrame([gone]), undefined);
    this.tellOurs(this.together?.leave(seat));
  }

  /**
   * Takes a frame from a seat. Whatever it holds, the room and the others stay as they should be.
   */
  receive(seat: Seat, bytes: Uint8Array): void {
    if (!this.seats.has(seat) || !seat.mayReceive()) return;
    const frame = decodeFrame(bytes);
    switch (frame.kind) {
      case "step-1":
        seat.send(step2Frame(this.bytes.since(frame.stateVector)));
        break;
      case "update":
        this.receiveUpdate(seat, frame);
        break;
      case "awareness":
        this.receiveAwareness(seat, frame.entries);
        break;
      case "query-awareness":
        seat.send(this.presences.frame());
        break;
      case "clock-question":
      case "together-ask":
        this.receiveTogether(seat, frame);
        break;
      case "unreadable":
        seat.refuse("malformed");
        break;
    }
  }

  /** Takes the rows as they stand in the log after a compaction. */
  reload(rows: readonly StoredRow[]): void {
    this.bytes = new DocumentBytes(rows.map(({ update }) => update));
  }

  /** Stores an update of the server's own and passes it on. */
  write(update: Uint8Array): Promise<Outcome> {
    const parts = ownParts(update);
    return new Promise((resolve) => {
      this.store({ kind: "new", update, parts, clients: [] }, undefined, resolve);
    });
  }

  /** Says that the line is alive: the stock client drops one on which it hears nothing for 30 s. */
  keepAlive(): void {
    for (const seat of this.seats) seat.send(awarenessFrame([]));
  }

  /** Asks the seats whose updates the store had no room for to send them again. */
  retry(): void {
    for (const seat of this.seats) {
      if (!seat.isOwedRetry) continue;
      seat.isOwedRetry = false;
      seat.send(step1Frame(this.known.stateVector()));
    }
  }

  private receiveUpdate(seat: Seat, frame: Extract<ClientFrame, { kind: "update" }>): void {
    const decided = seat.receiveUpdate();
    const settle = () => decided(() => this.durable.stateVector());
    const admission = this.judge(seat, frame);
    if (admission.kind === "new") {
      this.store(admission, seat, (outcome) => {
        if (outcome === "full") {
          seat.isOwedRetry = true;
          seat.refuse("store-full");
        }
        settle();
      });
      return;
    }
    if (admission.kind === "gap") seat.send(step1Frame(this.known.stateVector()));
    if (admission.kind === "refused") seat.refuse(admission.refusal);
    settle();
  }

  private judge(
    seat: Seat,
    { update, as }: { update: Uint8Array; as: "step-2" | "edit" },
  ): Admission {
    const mayEdit = this.mayWrite(seat.member);
    if (!mayEdit && as === "edit") return { kind: "refused", refusal: "not-yours" };
    const bytesMax = as === "edit" ? updateBytesMax : frameBytesMax;
    if (update.length > bytesMax) return { kind: "refused", refusal: "too-large" };
    const ownerOf = (client: number) => this.ownerOf(client);
    const asked = { update, member: seat.member, as };
    const admission = admit(asked, { known: this.known, ownerOf });
    if (admission.kind === "known") return admission;
    // Everybody answers our step 1, so only news from somebody who may not write is a trespass.
    if (!mayEdit) return { kind: "refused", refusal: "not-yours" };
    const isFull = this.bytes.size + update.length > documentBytesMax;
    return isFull ? { kind: "refused", refusal: "document-full" } : admission;
  }

  private mayWrite(id: MemberId): boolean {
    const member = this.ports.memberNow(id);
    return member !== undefined && mayWrite(this.key.document, member, this.ports.ownersNow());
  }

  private store(fresh: Fresh, writer: Seat | undefined, done: (outcome: Outcome) => void): void {
    const { update, parts, clients } = fresh;
    this.known.add(parts);
    this.onTheWay += 1;
    const bindings = writer === undefined ? [] : this.bind(clients, writer.member);
    this.ports.saveLoop.save({ key: this.key, update, bindings }, (outcome) => {
      this.onTheWay -= 1;
      if (outcome === "stored") this.passOn(update, parts, writer);
      else this.known = this.durable.copy();
      done(outcome);
    });
  }

  private passOn(update: Uint8Array, parts: DecodedUpdate, writer: Seat | undefined): void {
    this.durable.add(parts);
    this.bytes.add(update);
    this.tell(updateFrame(update), writer);
  }

  /**
   * A binding whose row fails stays in memory: the id is the same member's when the update comes
   * again.
   */
  private bind(clients: readonly number[], member: MemberId) {
    const unbound = clients.filter((client) => !this.owners.has(client));
    for (const client of unbound) this.owners.set(client, member);
    return clients.map((client) => ({ client, member }));
  }

  /** Whose a client id is: by what was written under it, else by the presence that named it. */
  private ownerOf(client: number): MemberId | undefined {
    return this.owners.get(client) ?? this.named.get(client);
  }

  private receiveAwareness(seat: Seat, entries: Uint8Array): void {
    const name = this.ports.memberNow(seat.member)?.name;
    if (name === undefined) return;
    const heard = this.presences.hear(seat, name, entries, (client) => this.ownerOf(client));
    if (seat.client !== undefined) this.name(seat.client, seat.member);
    if (heard !== undefined) this.tell(awarenessFrame([heard]), undefined);
    else seat.send(awarenessFrame([]));
  }

  private name(client: number, member: MemberId): void {
    if (this.ownerOf(client) !== undefined) return;
    this.named.set(client, member);
    const [oldest] = this.named.keys();
    if (this.named.size > clientsPerDocumentMax && oldest !== undefined) this.named.delete(oldest);
  }

  private receiveTogether(seat: Seat, frame: TogetherFrame): void {
    if (this.together === undefined) seat.refuse("malformed");
    else if (frame.kind === "clock-question") this.together.answer(seat, frame.question);
    else this.tellOurs(this.together.ask(seat, this.ports.memberNow(seat.member), frame.wish));
  }

  private tellOurs(frame: Uint8Array | undefined): void {
    if (frame !== undefined) for (const seat of this.seats) seat.sendOurs(frame);
  }

  private tell(frame: Uint8Array, except: Seat | undefined): void {
    for (const seat of this.seats) if (seat !== except) seat.send(frame);
  }
}

/** The parts of an update that was checked before, or that the server made. */
function ownParts(update: Uint8Array): DecodedUpdate {
  const parts = decodeUpdate(update);
  if (parts === undefined) throw new Error("a stored update can't be read");
  return parts;
}
