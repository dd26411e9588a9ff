/** One connected socket in a room: what it sends, how fast, and what it has been told. */
import type { MemberId } from "@halflap/board/board";
import {
  behindBytesMax,
  bufferedBytesMax,
  clockQuestionsBurst,
  clockQuestionsPerSecond,
  messagesBurst,
  messagesPerSecond,
  savedEveryMs,
  searchesBurst,
  searchesPerSecond,
  togetherAsksBurst,
  togetherAsksPerSecond,
} from "@halflap/wire/limits";
import { closeCode, encodeRefused, encodeSaved, type UpdateRefusal } from "@halflap/wire/messages";
import { TokenBucket } from "./token-bucket.ts";

/** The socket as far as a seat needs it; sending to a closed one is allowed and does nothing. */
export type Line = {
  send(frame: Uint8Array): void;
  close(code: number, reason: string): void;
  /** Bytes that the other end has not taken yet. */
  buffered(): number;
};

export type SeatOptions = {
  readonly member: MemberId;
  readonly line: Line;
  /** Whether it asked for our own messages, which the stock client only logs. */
  readonly wantsSaved: boolean;
  /** Milliseconds that never go back, from any start. */
  readonly now: () => number;
  /** Told every refusal, also one that the other end did not ask to hear. */
  readonly onRefused?: (refusal: UpdateRefusal) => void;
};

/** Where it is known what of a document is on disk, in the encoding of sync step 1. */
export type Disk = { durableVector(): Uint8Array };

/** Lives from the entry of a socket into a room to its leaving. */
export class Seat {
  readonly member: MemberId;
  /** The client id this socket speaks for in its presence; undefined before it has named one. */
  client: number | undefined;
  /**
   * What it will have once it has read what it was sent, when it reads so slowly, or was to be
   * answered so often, that nothing more is sent; undefined while it keeps up.
   */
  behindFrom: ReadonlyMap<number, number> | undefined;
  /** Whether it is to be asked, in a while, for what the disk did not take or lacks of others. */
  isOwedRetry = false;
  /** Since when it shows content of others that the disk lacks, in ms; undefined while not. */
  lacksSince: number | undefined;
  private readonly options: SeatOptions;
  private readonly bucket: TokenBucket;
  /** Made when they are needed: most seats never ask. */
  private readonly asking = new Map<keyof typeof askingRates, TokenBucket>();
  private isClosed = false;
  /** The largest frame that may still lie in the line. */
  private largest = 0;
  private received = 0;
  private readonly undecided = new Set<number>(); // oldest first
  private savedAt = Number.NEGATIVE_INFINITY;
  private savedTimer: ReturnType<typeof setTimeout> | undefined;
  /** Whether something was decided since it was told what is saved. */
  private isSavedOwed = false;

  constructor(options: SeatOptions) {
    this.options = options;
    this.member = options.member;
    this.bucket = new TokenBucket(messagesPerSecond, messagesBurst, options.now());
  }

  /** Whether a message may come now; a socket that sends faster is closed and may come again. */
  mayReceive(): boolean {
    if (this.isClosed) return false;
    if (this.bucket.take(this.options.now())) return true;
    this.refuse("too-fast");
    this.close(closeCode.tooFast, "too many messages");
    return false;
  }

  /** Whether it may ask now; it is told when it asks too often. */
  mayAsk(what: "time" | "together"): boolean {
    if (this.isWithin(what)) return true;
    this.refuse("too-fast");
    return false;
  }

  /** Whether much may be searched for it now; where not, it is answered later. */
  maySearch(): boolean {
    return this.isWithin("search");
  }

  /** The time by which rates are kept, in ms. */
  now(): number {
    return this.options.now();
  }

  send(frame: Uint8Array): void {
    if (this.isClosed) return;
    const buffered = this.options.line.buffered();
    if (buffered === 0) this.largest = 0;
    // A whole document may be larger than the bound, and lies there for a while on a slow line.
    if (buffered > Math.max(bufferedBytesMax, this.largest + behindBytesMax)) {
      this.close(closeCode.tryLater, "not reading");
      return;
    }
    this.largest = Math.max(this.largest, frame.length);
    this.options.line.send(frame);
  }

  /**
   * Sends what everybody hears, unless it is behind; it may be from here on. `after` is what it has
   * of the document with this.
   */
  passOn(frame: Uint8Array, after: () => ReadonlyMap<number, number>): void {
    if (this.behindFrom !== undefined) return;
    this.send(frame);
    if (this.options.line.buffered() > behindBytesMax) this.behindFrom = after();
  }

  /** Whether it has read most of what it was sent. */
  get hasRead(): boolean {
    return this.options.line.buffered() < behindBytesMax / 2;
  }

  /** Counts an update frame; answers its number, by which it is said to be decided, once. */
  receiveUpdate(): number {
    this.received += 1;
    this.undecided.add(this.received);
    return this.received;
  }

  /** The frame of that number is decided: it is told together with what is on disk. */
  decided(number: number, disk: Disk): void {
    this.undecided.delete(number);
    this.tellSaved(disk);
  }

  refuse(refusal: UpdateRefusal): void {
    this.options.onRefused?.(refusal);
    this.sendOurs(encodeRefused(refusal));
  }

  /** Sends a message that the stock client does not know, to whoever asked for such. */
  sendOurs(frame: Uint8Array): void {
    if (this.options.wantsSaved) this.send(frame);
  }

  close(code: number, reason: string): void {
    if (this.isClosed) return;
    this.isClosed = true;
    this.leave();
    this.options.line.close(code, reason);
  }

  /** Nothing will be told any more. */
  leave(): void {
    clearTimeout(this.savedTimer);
  }

  private isWithin(what: keyof typeof askingRates): boolean {
    const now = this.options.now();
    const { perSecond, burst } = askingRates[what];
    const bucket = this.asking.get(what) ?? new TokenBucket(perSecond, burst, now);
    this.asking.set(what, bucket);
    return bucket.take(now);
  }

  /** Always the same wait, since timers of one length cost next to nothing together. */
  private tellSaved(disk: Disk): void {
    if (!this.options.wantsSaved) return;
    const now = this.options.now();
    this.isSavedOwed = now - this.savedAt < savedEveryMs;
    if (!this.isSavedOwed) {
      this.savedAt = now;
      const [oldest = this.received + 1] = this.undecided;
      this.send(encodeSaved(disk.durableVector(), oldest - 1));
    }
    this.savedTimer ??= setTimeout(() => {
      this.savedTimer = undefined;
      if (this.isSavedOwed) this.tellSaved(disk);
    }, savedEveryMs);
  }
}

const askingRates = {
  time: { perSecond: clockQuestionsPerSecond, burst: clockQuestionsBurst },
  together: { perSecond: togetherAsksPerSecond, burst: togetherAsksBurst },
  search: { perSecond: searchesPerSecond, burst: searchesBurst },
} as const;
