/** What is played together in a room: the last word, in memory only, and who hears it. */
import type { Me } from "@halflap/wire/api";
import { togetherLastsMs, togetherReachMs } from "@halflap/wire/limits";
import { mayTake } from "@halflap/wire/permissions";
import {
  type ClockQuestion,
  encodeClockAnswer,
  encodeTogetherTold,
  type SharedWish,
  type Told,
} from "@halflap/wire/together";
import type { Seat } from "./seat.ts";

const nothing: Told = { kind: "nothing" };

/** One word at most; times are those of the server's monotonic clock, in ms. */
export class Together {
  private told: Told = nothing;
  private toldAtMs = 0;
  private revision = 0;
  private readonly along = new Set<Seat>();

  /** What whoever comes now has to know, as a frame. */
  frame(nowMs: number): Uint8Array {
    const isOver = nowMs - this.toldAtMs > togetherLastsMs;
    return encodeTogetherTold(isOver ? nothing : this.told);
  }

  /**
   * Says the time to a seat, and notes whether somebody there hears what is played. Answers the
   * frame for everybody when nobody does any more.
   */
  answer(seat: Seat, { sentMs, isAlong }: ClockQuestion): Uint8Array | undefined {
    if (!seat.mayAsk("time")) return undefined;
    seat.sendOurs(encodeClockAnswer({ sentMs, serverMs: seat.clock() }));
    if (!isAlong) return this.leave(seat);
    this.along.add(seat);
    return undefined;
  }

  /**
   * Takes the word of a seat's member, undefined once removed. Answers the frame for everybody;
   * undefined when the word was refused.
   */
  ask(seat: Seat, member: Me | undefined, wish: SharedWish): Uint8Array | undefined {
    if (!seat.mayAsk("together")) return undefined;
    const nowMs = seat.clock();
    const isNear = wish.kind === "stopped" || Math.abs(wish.atMs - nowMs) <= togetherReachMs;
    const isAllowed = member !== undefined && mayTake(member.role, "play-together");
    if (!isNear || !isAllowed) {
      seat.refuse(isAllowed ? "malformed" : "not-yours");
      return undefined;
    }
    this.revision += 1;
    this.told = { kind: "word", revision: this.revision, by: seat.member, wish };
    this.toldAtMs = nowMs;
    if (wish.kind === "playing") this.along.add(seat);
    return encodeTogetherTold(this.told);
  }

  /** A seat hears it no more. Answers the frame for those who stay when nobody else does. */
  leave(seat: Seat): Uint8Array | undefined {
    const wasAlong = this.along.delete(seat);
    const isPlayed = this.told.kind === "word" && this.told.wish.kind === "playing";
    if (!wasAlong || !isPlayed || this.along.size > 0) return undefined;
    this.told = nothing;
    return encodeTogetherTold(nothing);
  }
}
