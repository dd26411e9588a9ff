/**
 * What comes to be stored in one document: judged, passed on, sent on its way to the disk, and told
 * about when it is there.
 *
 * An edit goes to the others as soon as it is judged, under client ids whose owner the disk knows;
 * "saved" waits for the disk. What was passed on and then lost, in a full disk or a kill, is still
 * with its author, who brings it again; that others have it too is no trespass of theirs.
 */
import type { MemberId } from "@halflap/board/board";
import { documentBytesMax, frameBytesMax, updateBytesMax } from "@halflap/wire/limits";
import { closeCode } from "@halflap/wire/messages";
import { mayWrite } from "@halflap/wire/permissions";
import type { DocumentKey, NewRow } from "../store/log-port.ts";
import { makeMessageId } from "../store/secret.ts";
import { type Admission, admit } from "./admission.ts";
import { step1Frame, updateFrame } from "./frames.ts";
import { type HeldDocument, ownParts } from "./held-document.ts";
import {
  type Coming,
  hangsOnOthers,
  LateBytes,
  LateUpdates,
  type UpdateFrame,
} from "./late-updates.ts";
import { ownPart } from "./own-part.ts";
import type { RoomPorts } from "./room-ports.ts";
import type { Outcome } from "./save-loop.ts";
import type { Seat } from "./seat.ts";
import { SettledDeletions } from "./settled-deletions.ts";

/** The room that it comes to. */
export type Home = {
  readonly key: DocumentKey;
  readonly held: HeldDocument;
  readonly seats: ReadonlySet<Seat>;
  readonly ports: RoomPorts;
  tell(frame: Uint8Array, except: Seat | undefined): void;
  /** The board was deleted, on another node perhaps. */
  closeAll(): void;
};

type Fresh = Extract<Admission, { kind: "new" }>;
type Left = Extract<Admission, { kind: "others" | "unplaced" }>;
/** A frame of a seat that waits to be decided. */
type Repeat = Pick<Coming, "seat" | "number">;

/** How long others' content that the disk lacks may wait for its author, in ms. */
export const authorsMs = 60_000;

/** How long an update may wait for what another node passed on before it stored it, in ms. */
export const awaitingMs = 5_000;

/** One for each room. */
export class Intake {
  private readonly home: Home;
  /**
   * Frames with nothing to store that came behind the newest row: what they repeat may be on its
   * way to the disk, so they are decided with it.
   */
  private repeats: Repeat[] = [];
  /** What rows fell by, while those behind them fall too. */
  private falling: Outcome["kind"] | undefined;
  private readonly late: LateUpdates;
  private readonly settled = new SettledDeletions();

  constructor(home: Home) {
    this.home = home;
    this.late = new LateUpdates(home.ports.lateBytes ?? new LateBytes());
  }

  /** Takes an update frame of a seat. */
  receive(seat: Seat, frame: UpdateFrame): void {
    this.decide({ seat, frame, number: seat.receiveUpdate(), lateSince: undefined });
  }

  /** Stores an update of the server's own and passes it on. */
  write(update: Uint8Array): Promise<Outcome> {
    const parts = ownParts(update);
    return new Promise((resolve) => {
      this.store({ kind: "new", update, parts, clients: [] }, undefined, resolve);
    });
  }

  /** Behind the last update that waits until the room has read the log on. */
  get lateMark(): number {
    return this.late.mark;
  }

  /** It has: judges those before a mark again. */
  judgeLate(mark: number): void {
    for (const one of this.late.takeUpTo(mark)) {
      if (this.home.seats.has(one.seat)) this.decide(one);
    }
  }

  /** Nothing of a seat that has left the room waits any longer. */
  leave(seat: Seat): void {
    this.late.forget(seat);
  }

  private decide(coming: Coming): void {
    const { seat, frame, number } = coming;
    const admission = this.judge(seat, frame);
    if (hangsOnOthers(admission) && this.postpone(coming)) return;
    const isLeft = admission.kind === "others" || admission.kind === "unplaced";
    if (isLeft) this.leaveToAuthors(seat, admission);
    else if (frame.as === "step-2") seat.lacksSince = undefined;
    const fresh = isLeft ? this.ownOf(coming, admission) : admission;
    if (fresh?.kind === "new") {
      this.storeFor(coming, fresh);
      return;
    }
    if (admission.kind === "gap") seat.send(this.question());
    if (fresh?.kind === "refused") seat.refuse(fresh.refusal);
    const isRepeat = isLeft || admission.kind === "known";
    if (isRepeat && this.home.held.isSaving) this.repeats.push({ seat, number });
    else this.settle(coming);
  }

  /**
   * The seat is asked again in a while. One whose authors do not come is refused, so that its page
   * takes the document as it stands here; but not while the disk takes nothing from them. Where it
   * may have deleted something itself it is told that this counts for nothing yet: no vector says
   * so.
   */
  private leaveToAuthors(seat: Seat, left: Left): void {
    const now = seat.now();
    seat.lacksSince = this.home.ports.saveLoop.isSound ? (seat.lacksSince ?? now) : undefined;
    seat.isOwedRetry = now - (seat.lacksSince ?? now) < authorsMs;
    if (!seat.isOwedRetry) {
      seat.lacksSince = undefined;
      seat.refuse("foreign-client");
    } else if (left.kind === "unplaced" || left.hasDeletions) seat.refuse("others-first");
  }

  /** What an answer holds of the writer's own that needs no lost work of others. */
  private ownOf({ seat, frame }: Coming, left: Left): Admission | undefined {
    const { held } = this.home;
    const mayHold = left.kind === "unplaced" || left.hasOwn;
    if (!mayHold || !this.mayWrite(seat.member)) return undefined;
    const isOwn = (client: number) => (held.ownerOf(client) ?? seat.member) === seat.member;
    const update = ownPart(frame.update, isOwn, held.known);
    return update && this.judge(seat, { ...frame, update });
  }

  private settle({ seat, number }: Repeat): void {
    seat.decided(number, this.home.held);
  }

  private question(): Uint8Array {
    return step1Frame(this.home.held.known.stateVector());
  }

  /**
   * Lets an update wait until the room has read the log on; false when that was tried. What builds
   * on an edit that another node passed on and has not stored yet waits for that, for a while.
   */
  private postpone(coming: Coming): boolean {
    const { ports, held, seats } = this.home;
    if (ports.onBehind === undefined || !seats.has(coming.seat)) return false;
    const now = coming.seat.now();
    const { lateSince = now } = coming;
    const isFirst = coming.lateSince === undefined;
    if (now - lateSince >= awaitingMs) held.awaitNoLonger();
    if (!isFirst && !held.isAwaiting) return false;
    if (this.late.add({ ...coming, lateSince })) {
      if (isFirst) ports.onBehind();
    } else coming.seat.close(closeCode.tryLater, "too much waits to be judged");
    return true;
  }

  private storeFor(coming: Coming, admission: Fresh): void {
    const { seat } = coming;
    if (!this.home.ports.saveLoop.hasRoomFor(admission.update.length)) {
      seat.close(closeCode.tryLater, "too much waits to be stored");
      return;
    }
    this.store(admission, coming, ({ kind }) => {
      if (kind === "foreign" && this.postpone(coming)) return;
      if (kind === "full") seat.refuse("store-full");
      if (kind === "foreign") seat.refuse("foreign-client");
      if (kind === "gone") this.home.closeAll();
      this.settle(coming);
    });
  }

  private store(fresh: Fresh, coming: Coming | undefined, done: (outcome: Outcome) => void): void {
    const { held, key, ports } = this.home;
    const { update, parts, clients } = fresh;
    const writer = coming?.seat;
    const bindings = writer === undefined ? [] : held.bind(clients, writer.member);
    // A deletion alone names no author by whom it could be told from a trespass afterwards.
    const isTold = writer !== undefined && parts.structs.size > 0 && ports.saveLoop.isSound;
    const isHeard = held.begin({ update, parts, bindings }, isTold);
    const frame = coming?.frame.update === update ? coming.frame.whole : undefined;
    if (isHeard) this.passOn(frame ?? updateFrame(update), writer);
    const row = { key, message: makeMessageId(), update, bindings };
    const repeats: Repeat[] = [];
    this.repeats = repeats;
    // Has no name of its own: every edit makes one, and naming costs more than making.
    ports.saveLoop.save(
      row,
      (outcome) => {
        if (outcome.kind === "stored") {
          const isNews = held.arrived(row, { parts, isHeard }, outcome.row);
          if (isNews && !isHeard) this.home.tell(frame ?? updateFrame(update), writer);
          if (held.position?.hasGap) ports.onBehind?.();
          this.falling = undefined;
        } else this.fall(row, isHeard, outcome.kind);
        done(outcome);
        for (const repeat of repeats) this.settleRepeat(repeat, outcome.kind);
      },
      !isHeard,
    );
  }

  private passOn(frame: Uint8Array, writer: Seat | undefined): void {
    this.home.tell(frame, writer);
    this.home.ports.cross?.(frame);
  }

  /**
   * A row did not arrive, and was counted as known meanwhile, towards whoever came in: its writer
   * perhaps, over another socket. So all are asked for it; once, since what came behind it falls
   * with it.
   */
  private fall(row: NewRow, isHeard: boolean, kind: Outcome["kind"]): void {
    const { held, seats } = this.home;
    const isFurther = kind === this.falling;
    held.failed(row, { isHeard, isForeign: kind === "foreign", isFurther });
    this.falling = held.isSaving ? kind : undefined;
    if (isFurther) return;
    if (kind === "full") for (const seat of seats) seat.isOwedRetry = true;
    // To each by itself: what all are told is kept from whoever is slow to read.
    if (kind === "again") for (const seat of seats) seat.send(this.question());
  }

  /** What it repeats may be lost with the row: then it is to come again before it is decided. */
  private settleRepeat(repeat: Repeat, kind: Outcome["kind"]): void {
    if (kind === "full") repeat.seat.refuse("store-full");
    if (kind === "foreign") repeat.seat.send(this.question());
    this.settle(repeat);
  }

  private judge(seat: Seat, { update, as }: UpdateFrame): Admission {
    const mayEdit = this.mayWrite(seat.member);
    if (!mayEdit && as === "edit") return { kind: "refused", refusal: "not-yours" };
    const bytesMax = as === "edit" ? updateBytesMax : frameBytesMax;
    if (update.length > bytesMax) return { kind: "refused", refusal: "too-large" };
    const admission = admit({ update, member: seat.member, as }, this.home.held);
    if (admission.kind === "known") return admission;
    // Its page has heard what was passed on, and what that builds on is lost, or not here yet.
    if (admission.kind === "unplaced") return admission;
    // Everybody answers our step 1, so only news of their own from somebody who may not write is a
    // trespass.
    if (!mayEdit) return this.judgeHearer(seat, admission);
    return admission.kind === "new" ? this.withinBounds(admission) : admission;
  }

  /** What somebody answers who may not write, and has heard more than the disk has. */
  private judgeHearer(seat: Seat, admission: Admission): Admission {
    if (admission.kind === "others" && !admission.hasOwn) return admission;
    if (admission.kind === "new" && admission.clients.length === 0) {
      const { deletions } = admission.parts;
      const isSettled = this.settled.covers(deletions, this.home.held.bytes, seat.now());
      if (isSettled) return { kind: "known" };
    }
    return { kind: "refused", refusal: "not-yours" };
  }

  private withinBounds(fresh: Extract<Admission, { kind: "new" }>): Admission {
    const { held, ports } = this.home;
    const { length } = fresh.update;
    if (held.size + length > documentBytesMax) return { kind: "refused", refusal: "document-full" };
    const isBoardFull = ports.hasBoardRoomFor?.(length) === false;
    return isBoardFull ? { kind: "refused", refusal: "board-full" } : fresh;
  }

  private mayWrite(id: MemberId): boolean {
    const member = this.home.ports.memberNow(id);
    return (
      member !== undefined && mayWrite(this.home.key.document, member, this.home.ports.ownersNow())
    );
  }
}
