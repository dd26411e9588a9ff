/**
 * What is played together in a room: the last word, in memory only, and who hears it, here and at
 * other nodes.
 */
import type { Me } from "@halflap/wire/api";
import { togetherLastsMs, togetherReachMs } from "@halflap/wire/limits";
import { closeCode } from "@halflap/wire/messages";
import { mayTake } from "@halflap/wire/permissions";
import {
  type ClockQuestion,
  encodeClockAnswer,
  encodeTogetherTold,
  type SharedWish,
  type Told,
} from "@halflap/wire/together";
import { encodeRun, type Run } from "../wake/crossed-run.ts";
import type { SharedTime } from "../wake/crossing-port.ts";
import type { Seat } from "./seat.ts";

export type TogetherPorts = {
  time(): SharedTime;
  /** Says a frame to everybody here who knows our messages. */
  tell(frame: Uint8Array): void;
  /** Passes a frame to this document's rooms at other nodes, where there are some. */
  cross(frame: Uint8Array): void;
};

const nothing: Told = { kind: "nothing" };
/** The last part of a revision is its node's own, so that no two nodes give the same one. */
const tagsMax = 2 ** 20;
/** How long it holds that somebody hears it at a node; each says so every two seconds. */
export const elsewhereHoldsMs = 7_000;
/** Some node, when a word comes from elsewhere: those who hear it may not have spoken yet. */
const unknown = 0;
/** What took longer from node to node, or was told in another time, is let be: it comes again. */
export const crossingMsMax = 1_000;

/** One word at most; times are those that the nodes share, in ms. */
export class Together {
  private readonly ports: TogetherPorts;
  private readonly tag = 1 + Math.floor(Math.random() * (tagsMax - 1));
  private told: Told = nothing;
  private toldAtMs = 0;
  /** The highest heard of, here or elsewhere. */
  private revision = 0;
  private readonly along = new Set<Seat>();
  /** The nodes at which somebody hears it, and when they said so. */
  private readonly elsewhere = new Map<number, number>();
  /** The revision that another era made void: a node that has not noticed yet still tells it. */
  private voided: number | undefined;
  /** Who was told the time, in this era. */
  private readonly timed = new Set<Seat>();
  private era: number;

  constructor(ports: TogetherPorts) {
    this.ports = ports;
    this.era = ports.time().era;
  }

  /** What whoever comes now has to know, as a frame. */
  frame(): Uint8Array {
    this.time(); // by which a word may be over
    return encodeTogetherTold(this.told);
  }

  /** Says the time to a seat, and notes whether somebody there hears what is played. */
  answer(seat: Seat, { sentMs, isAlong }: ClockQuestion): void {
    if (!seat.mayAsk("time") || this.isOfLastEra(seat)) return;
    const { ms, nodes } = this.time();
    this.timed.add(seat);
    seat.sendOurs(encodeClockAnswer({ sentMs, serverMs: ms, nodes }));
    if (isAlong) this.join(seat);
    else this.unhear(seat);
  }

  /** Takes the word of a seat's member, undefined once removed, or refuses it. */
  ask(seat: Seat, member: Me | undefined, wish: SharedWish): void {
    if (!seat.mayAsk("together") || this.isOfLastEra(seat)) return;
    const { ms, nodes } = this.time();
    const isNear = wish.kind === "stopped" || Math.abs(wish.atMs - ms) <= togetherReachMs;
    const isAllowed = member !== undefined && mayTake(member.role, "play-together");
    if (!isNear || !isAllowed) {
      seat.refuse(isAllowed ? "malformed" : "not-yours");
      return;
    }
    const count = Math.floor(this.revision / tagsMax) + 1;
    const revision = nodes === undefined ? this.revision + 1 : count * tagsMax + this.tag;
    if (wish.kind === "playing") this.along.add(seat);
    this.take(revision, { kind: "word", revision, by: seat.member, wish }, ms);
    this.pass();
  }

  /** Whoever sat there hears it no more, and is told no more. */
  leave(seat: Seat): void {
    this.timed.delete(seat);
    this.unhear(seat);
  }

  /** Takes what another node told: the highest revision is the last word everywhere. */
  hear(run: Run): void {
    const { ms } = this.time();
    if (Math.abs(ms - run.sentMs) > crossingMsMax) return;
    if (run.isAlong) this.elsewhere.set(run.node, ms);
    else this.elsewhere.delete(run.node);
    const isSame = run.revision === this.revision;
    const isOver = isSame && run.told.kind === "nothing" && this.isPlayed;
    const isFresh = run.told.kind === "word" && run.ageMs <= togetherLastsMs;
    const isVoid = run.revision === this.voided;
    const isOn = isSame && isFresh && !isVoid && this.told.kind === "nothing" && run.isAlong;
    const isHeardHere = this.along.size > 0;
    if (run.revision > this.revision || isOn || (isOver && !isHeardHere)) {
      if (run.told.kind === "word") this.elsewhere.set(unknown, ms);
      this.take(run.revision, run.told, ms - run.ageMs);
    } else if (run.revision < this.revision || isOver) this.pass();
    else this.endUnheard();
  }

  /** Tells the other nodes what is known here; nothing when nothing ever was. */
  pass(): void {
    const { ms } = this.time();
    if (this.revision === 0) return;
    const isAlong = this.along.size > 0;
    const { revision, told } = this;
    const [node, ageMs] = [this.tag, ms - this.toldAtMs];
    this.ports.cross(encodeRun({ node, sentMs: ms, revision, told, ageMs, isAlong }));
  }

  /** Every two seconds: says again that it is heard here, or ends what nobody hears anywhere. */
  renew(): void {
    if (!this.isPlayed) return;
    if (this.along.size > 0) this.pass();
    else this.endUnheard();
  }

  private join(seat: Seat): void {
    const isFirst = this.along.size === 0;
    this.along.add(seat);
    if (isFirst && this.isPlayed) this.pass();
  }

  private unhear(seat: Seat): void {
    if (!this.along.delete(seat) || this.along.size > 0 || !this.isPlayed) return;
    this.endUnheard();
    this.pass(); // the end, or that nobody hears it here
  }

  private endUnheard(): void {
    const fromMs = this.time().ms - elsewhereHoldsMs;
    for (const [node, saidMs] of this.elsewhere) if (saidMs < fromMs) this.elsewhere.delete(node);
    if (!this.isPlayed || this.along.size > 0 || this.elsewhere.size > 0) return;
    this.take(this.revision, nothing, this.toldAtMs);
  }

  private get isPlayed(): boolean {
    return this.told.kind === "word" && this.told.wish.kind === "playing";
  }

  private take(revision: number, told: Told, toldAtMs: number): void {
    const isNews = told.kind === "word" || this.told.kind === "word";
    this.revision = revision;
    this.told = told;
    this.toldAtMs = toldAtMs;
    if (isNews) this.ports.tell(encodeTogetherTold(told));
  }

  /**
   * The time. A word that is too old by it is over. In another era the word is void, and whoever
   * agreed a clock in the last one is sent away to come again: pages take a new line for a new
   * clock.
   */
  private time(): SharedTime {
    const time = this.ports.time();
    const isOver = time.ms - this.toldAtMs > togetherLastsMs;
    if (time.era === this.era) {
      if (isOver && this.told.kind === "word") this.take(this.revision, nothing, this.toldAtMs);
      return time;
    }
    this.era = time.era;
    for (const seat of this.timed) seat.close(closeCode.tryLater, "another clock from here on");
    this.timed.clear();
    this.along.clear();
    this.elsewhere.clear();
    this.voided = this.revision;
    this.take(this.revision, nothing, this.toldAtMs);
    return time;
  }

  /** Whether a seat was sent away just now, with what it reckons in the time of the last era. */
  private isOfLastEra(seat: Seat): boolean {
    const wasTimed = this.timed.has(seat);
    this.time();
    return wasTimed && !this.timed.has(seat);
  }
}
