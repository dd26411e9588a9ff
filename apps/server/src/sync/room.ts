/**
 * One document while somebody has it open: what is known of it, who sits in it, and what goes from
 * one to another.
 */
import type { MemberId } from "@halflap/board/board";
import type { Me } from "@halflap/wire/api";
import {
  documentBytesMax,
  frameBytesMax,
  seatsPerMemberMax,
  updateBytesMax,
} from "@halflap/wire/limits";
import { closeCode } from "@halflap/wire/messages";
import { type LaneOwners, mayWrite } from "@halflap/wire/permissions";
import type { DocumentKey, Since, StoredDocument } from "../store/log-port.ts";
import { makeMessageId } from "../store/secret.ts";
import { type Admission, admit } from "./admission.ts";
import {
  awarenessFrame,
  type ClientFrame,
  decodeFrame,
  step1Frame,
  updateFrame,
} from "./frames.ts";
import { HeldDocument, ownParts } from "./held-document.ts";
import { answerStep1, catchUp, passToAll } from "./keeping-up.ts";
import { type Coming, hangsOnOthers, LateUpdates, type UpdateFrame } from "./late-updates.ts";
import { Presences } from "./presences.ts";
import type { Outcome, SaveLoop } from "./save-loop.ts";
import type { Seat } from "./seat.ts";
import { Together } from "./together.ts";

export type RoomPorts = {
  readonly saveLoop: SaveLoop;
  /** A member as of now; undefined once removed. */
  memberNow(id: MemberId): Me | undefined;
  ownersNow(): LaneOwners;
  /** Told when other nodes seem to be ahead; undefined where no other node writes. */
  readonly onBehind?: (() => void) | undefined;
};

type TogetherFrame = Extract<ClientFrame, { kind: "clock-question" | "together-ask" }>;
type Fresh = Extract<Admission, { kind: "new" }>;
type Repeat = { readonly seat: Seat; readonly settle: () => void };

/** In memory while it has a lease; everything it is told twice is harmless. */
export class Room {
  readonly key: DocumentKey;
  readonly seats = new Set<Seat>();
  readonly held: HeldDocument;
  private readonly presences = new Presences();
  /** Over the board's document alone. */
  private readonly together: Together | undefined;
  private readonly ports: RoomPorts;
  /** Frames with nothing but what is on its way to the disk: they are decided when it is. */
  private readonly repeats: Repeat[] = [];
  private readonly late = new LateUpdates();

  constructor(key: DocumentKey, stored: StoredDocument, ports: RoomPorts) {
    this.key = key;
    this.ports = ports;
    this.together = key.document === "board" ? new Together() : undefined;
    this.held = new HeldDocument(stored, ports.onBehind !== undefined);
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
    seat.send(step1Frame(this.held.known.stateVector()));
    seat.send(this.presences.frame());
    if (this.together) seat.sendOurs(this.together.frame(seat.clock()));
    this.ports.onBehind?.(); // whoever comes from another node knows what it stored a moment ago
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
        answerStep1(seat, frame.stateVector, this.held);
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

  /** Asks seats again for what the store had no room for, and lets those behind catch up. */
  retry(): void {
    for (const seat of this.seats) {
      catchUp(seat, this.held, this.presences);
      if (!seat.isOwedRetry) continue;
      seat.isOwedRetry = false;
      seat.send(step1Frame(this.held.known.stateVector()));
    }
  }

  /** Takes in rows of the log that other nodes wrote; own ones among them are known. */
  follow({ rows, bindings }: Extract<Since, { kind: "rows" }>): void {
    this.held.bindAsStored(bindings);
    for (const row of rows) {
      if (this.held.take(row)) this.tell(updateFrame(row.update), undefined);
    }
  }

  /** Takes the document as it stands in the log, and passes on what of it was not here. */
  async loadAnew(load: () => Promise<StoredDocument>): Promise<void> {
    const news = await this.held.reload(load);
    if (news !== undefined) this.tell(updateFrame(news), undefined);
  }

  /** How many updates wait until this room has read the log on. */
  get lateCount(): number {
    return this.late.count;
  }

  /** It has: judges the first so many of them again. */
  judgeLate(count: number): void {
    for (const one of this.late.takeFirst(count)) if (this.seats.has(one.seat)) this.decide(one);
  }

  private receiveUpdate(seat: Seat, frame: UpdateFrame): void {
    const decided = seat.receiveUpdate();
    const settle = () => decided(() => this.held.durableVector());
    this.decide({ seat, frame, settle, wasLate: false });
  }

  private decide(coming: Coming): void {
    const { seat, frame, settle } = coming;
    const admission = this.judge(seat, frame);
    if (admission.kind === "new") {
      this.storeFor(coming, admission);
      return;
    }
    if (admission.kind === "known" && this.held.isSaving) {
      this.repeats.push({ seat, settle });
      return;
    }
    if (hangsOnOthers(admission) && this.postpone(coming)) return;
    if (admission.kind === "gap") seat.send(step1Frame(this.held.known.stateVector()));
    if (admission.kind === "refused") seat.refuse(admission.refusal);
    settle();
  }

  /** Lets an update wait until this room has read the log on; false when that was tried. */
  private postpone(coming: Coming): boolean {
    if (this.ports.onBehind === undefined || coming.wasLate) return false;
    if (this.late.add(coming)) this.ports.onBehind();
    else coming.seat.close(closeCode.tryLater, "too much waits to be judged");
    return true;
  }

  private storeFor(coming: Coming, admission: Fresh): void {
    const { seat, settle } = coming;
    if (!this.ports.saveLoop.hasRoomFor(admission.update.length)) {
      seat.close(closeCode.tryLater, "too much waits to be stored");
      return;
    }
    this.store(admission, seat, ({ kind }) => {
      if (kind === "foreign" && this.postpone(coming)) return;
      if (kind === "full") seat.refuse("store-full");
      if (kind === "foreign") seat.refuse("foreign-client");
      if (kind === "gone") this.closeAll();
      settle();
    });
  }

  /**
   * After each row on its way. One that did not arrive was counted as known meanwhile, towards
   * whoever came in: its writer perhaps, over another socket. So all are asked for it.
   */
  private afterRow(kind: Outcome["kind"]): void {
    if (kind === "full") for (const seat of this.seats) seat.isOwedRetry = true;
    if (kind === "again") this.tell(step1Frame(this.held.known.stateVector()), undefined);
    if (kind === "stored" && this.held.isSaving) return;
    for (const { seat, settle } of this.repeats.splice(0)) {
      if (kind === "full") seat.refuse("store-full");
      settle();
    }
  }

  /** The board was deleted, on another node perhaps. */
  private closeAll(): void {
    for (const seat of [...this.seats]) {
      this.leave(seat);
      seat.close(closeCode.revoked, "the board was deleted");
    }
  }

  private judge(seat: Seat, { update, as }: UpdateFrame): Admission {
    const mayEdit = this.mayWrite(seat.member);
    if (!mayEdit && as === "edit") return { kind: "refused", refusal: "not-yours" };
    const bytesMax = as === "edit" ? updateBytesMax : frameBytesMax;
    if (update.length > bytesMax) return { kind: "refused", refusal: "too-large" };
    const ownerOf = (client: number) => this.held.ownerOf(client);
    const asked = { update, member: seat.member, as };
    const admission = admit(asked, { known: this.held.known, ownerOf });
    if (admission.kind === "known") return admission;
    // Everybody answers our step 1, so only news from somebody who may not write is a trespass.
    if (!mayEdit) return { kind: "refused", refusal: "not-yours" };
    const isFull = this.held.bytes.size + update.length > documentBytesMax;
    return isFull ? { kind: "refused", refusal: "document-full" } : admission;
  }

  private mayWrite(id: MemberId): boolean {
    const member = this.ports.memberNow(id);
    return member !== undefined && mayWrite(this.key.document, member, this.ports.ownersNow());
  }

  private store(fresh: Fresh, writer: Seat | undefined, done: (outcome: Outcome) => void): void {
    const { update, parts, clients } = fresh;
    this.held.begin(parts);
    const bindings = writer === undefined ? [] : this.held.bind(clients, writer.member);
    const row = { key: this.key, message: makeMessageId(), update, bindings };
    this.ports.saveLoop.save(row, (outcome) => {
      if (outcome.kind === "stored") {
        const isNews = this.held.arrived(row, parts, outcome.row);
        if (isNews) this.tell(updateFrame(update), writer);
        if (this.held.position?.hasGap) this.ports.onBehind?.();
      } else this.held.failed(row, outcome.kind === "foreign");
      this.afterRow(outcome.kind);
      done(outcome);
    });
  }

  private receiveAwareness(seat: Seat, entries: Uint8Array): void {
    const name = this.ports.memberNow(seat.member)?.name;
    if (name === undefined) return;
    const heard = this.presences.hear(seat, name, entries, (client) => this.held.ownerOf(client));
    if (seat.client !== undefined) this.held.name(seat.client, seat.member);
    if (heard !== undefined) this.tell(awarenessFrame([heard]), undefined);
    else seat.send(awarenessFrame([]));
  }

  private receiveTogether(seat: Seat, frame: TogetherFrame): void {
    if (this.together === undefined) seat.refuse("malformed");
    else if (frame.kind === "clock-question")
      this.tellOurs(this.together.answer(seat, frame.question));
    else this.tellOurs(this.together.ask(seat, this.ports.memberNow(seat.member), frame.wish));
  }

  private tellOurs(frame: Uint8Array | undefined): void {
    if (frame !== undefined) for (const seat of this.seats) seat.sendOurs(frame);
  }

  private tell(frame: Uint8Array, except: Seat | undefined): void {
    passToAll(this.seats, except, frame, this.held);
  }
}
