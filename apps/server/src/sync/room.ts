/**
 * One document while somebody has it open: what is known of it, who sits in it, and what goes from
 * one to another.
 */
import { seatsPerMemberMax } from "@halflap/wire/limits";
import { closeCode } from "@halflap/wire/messages";
import type { DocumentKey, Since, StoredDocument } from "../store/log-port.ts";
import { decodeRun } from "../wake/crossed-run.ts";
import { ownTime } from "../wake/crossing-port.ts";
import {
  awarenessFrame,
  type ClientFrame,
  decodeFrame,
  queryFrame,
  step1Frame,
  updateFrame,
} from "./frames.ts";
import { HeldDocument } from "./held-document.ts";
import { Intake } from "./intake.ts";
import { answerStep1, catchUp, passToAll } from "./keeping-up.ts";
import { Presences } from "./presences.ts";
import type { RoomPorts } from "./room-ports.ts";
import type { Outcome } from "./save-loop.ts";
import { Searches } from "./searches.ts";
import type { Seat } from "./seat.ts";
import { Together } from "./together.ts";

type TogetherFrame = Extract<ClientFrame, { kind: "clock-question" | "together-ask" }>;

/** In memory while it has a lease; everything it is told twice is harmless. */
export class Room {
  readonly key: DocumentKey;
  readonly seats = new Set<Seat>();
  readonly held: HeldDocument;
  readonly presences = new Presences();
  readonly searches: Searches;
  /** Over the board's document alone. */
  private readonly together: Together | undefined;
  readonly ports: RoomPorts;
  private readonly intake: Intake;

  constructor(key: DocumentKey, stored: StoredDocument, ports: RoomPorts) {
    this.key = key;
    this.ports = ports;
    this.together = key.document === "board" ? this.makeTogether() : undefined;
    this.held = new HeldDocument(stored, ports.onBehind !== undefined);
    this.searches = ports.searches ?? new Searches();
    this.intake = new Intake(this);
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
    if (this.seats.size === 0) this.ports.cross?.(queryFrame); // whoever sits elsewhere
    this.seats.add(seat);
    seat.send(step1Frame(this.held.known.stateVector()));
    seat.send(this.presences.frame());
    if (this.together) seat.sendOurs(this.together.frame());
    this.ports.onBehind?.(); // whoever comes from another node knows what it stored a moment ago
  }

  leave(seat: Seat): void {
    if (!this.seats.delete(seat)) return;
    seat.leave();
    this.intake.leave(seat);
    const gone = this.presences.leave(seat);
    if (gone !== undefined) this.tellEverywhere(awarenessFrame([gone]));
    this.together?.leave(seat);
  }

  /**
   * Takes a frame from a seat. Whatever it holds, the room and the others stay as they should be.
   */
  receive(seat: Seat, bytes: Uint8Array): void {
    if (!this.seats.has(seat) || !seat.mayReceive()) return;
    const frame = decodeFrame(bytes);
    switch (frame.kind) {
      case "step-1":
        answerStep1(seat, frame.stateVector, this);
        break;
      case "update":
        this.intake.receive(seat, frame);
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

  /** Takes a frame that this document's room at another node passed here. */
  hear(bytes: Uint8Array): void {
    const run = decodeRun(bytes);
    if (run !== undefined) this.together?.hear(run);
    const frame = decodeFrame(bytes);
    if (frame.kind === "update") {
      if (this.held.hearEarly(frame.update)) this.tell(bytes, undefined);
    } else if (frame.kind === "awareness") {
      const heard = this.presences.hearElsewhere(frame.entries, (client, member) => {
        this.held.name(client, member); // whoever writes under it here must be them too
        return this.held.ownerOf(client) === member;
      });
      if (heard.length > 0) this.tell(awarenessFrame(heard), undefined);
    } else if (frame.kind === "query-awareness") {
      this.ports.cross?.(this.presences.ownFrame());
      this.together?.pass();
    }
  }

  /** Stores an update of the server's own and passes it on. */
  write(update: Uint8Array): Promise<Outcome> {
    return this.intake.write(update);
  }

  /** Says that the line is alive: the stock client drops one on which it hears nothing for 30 s. */
  keepAlive(): void {
    for (const seat of this.seats) seat.send(awarenessFrame([]));
  }

  /**
   * Asks seats again for what the store had no room for, lets those behind catch up, and takes back
   * the presence of those whom no node speaks for, and what nobody plays any more.
   */
  retry(): void {
    this.together?.renew();
    const silent = this.presences.forgetSilent();
    if (silent.length > 0) this.tell(awarenessFrame(silent), undefined);
    for (const seat of this.seats) {
      catchUp(seat, this);
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

  /** Behind the last update that waits until this room has read the log on. */
  get lateMark(): number {
    return this.intake.lateMark;
  }

  /** It has: judges those before a mark again. */
  judgeLate(mark: number): void {
    this.intake.judgeLate(mark);
  }

  /** The board was deleted, on another node perhaps. */
  closeAll(): void {
    for (const seat of [...this.seats]) {
      this.leave(seat);
      seat.close(closeCode.revoked, "the board was deleted");
    }
  }

  private receiveAwareness(seat: Seat, entries: Uint8Array): void {
    const name = this.ports.memberNow(seat.member)?.name;
    if (name === undefined) return;
    const heard = this.presences.hear(seat, name, entries, (client) => this.held.ownerOf(client));
    if (seat.client !== undefined) this.held.name(seat.client, seat.member);
    if (heard !== undefined) this.tellEverywhere(awarenessFrame([heard]));
    else seat.send(awarenessFrame([]));
  }

  private receiveTogether(seat: Seat, frame: TogetherFrame): void {
    if (this.together === undefined) seat.refuse("malformed");
    else if (frame.kind === "clock-question") this.together.answer(seat, frame.question);
    else this.together.ask(seat, this.ports.memberNow(seat.member), frame.wish);
  }

  private makeTogether(): Together {
    return new Together({
      time: () => this.ports.time?.() ?? ownTime(),
      tell: (frame) => {
        for (const seat of this.seats) seat.sendOurs(frame);
      },
      cross: (frame) => this.ports.cross?.(frame),
    });
  }

  private tellEverywhere(frame: Uint8Array): void {
    this.tell(frame, undefined);
    this.ports.cross?.(frame);
  }

  /** Says it to everybody but one. */
  tell(frame: Uint8Array, except: Seat | undefined): void {
    passToAll(this.seats, except, frame, this.held);
  }
}
