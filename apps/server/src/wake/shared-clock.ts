/**
 * A clock that all nodes can ask, as one of them knows it: asked in rounds, kept between them, and
 * kept on while it is out of reach.
 */
import {
  type Agreement,
  agree,
  type Ping,
  pingsPerRound,
  type Reckoning,
  reckon,
  roundsMax,
  serverTime,
} from "@halflap/wire/agreement";
import { ownTime, type SharedTime } from "./crossing-port.ts";

/** Between two questions of a round. */
const pingEveryMs = 50;
/** A question that is not answered within this is not answered. */
const answerMs = 1_000;
/** From one round to the next: soon at first, then only to follow it. */
const restsMs = [500, 2_000, 5_000] as const;
/** No clock drifts further than this from one round to the next: it was set. */
const driftedMs = 2;
/** A clock that was set by more than this begins another era; by less, it is followed. */
export const steppedMs = 30;

export type SharedClockPorts = {
  /** The clock's time, in ms; rejects while it can't be had. */
  ask(): Promise<number>;
  /** This process' own, in ms; never goes back. */
  now?: () => number;
};

/** Begins to ask when it is made, and ends with `close`. */
export class SharedClock {
  readonly #ask: () => Promise<number>;
  readonly #now: () => number;
  #agreement: Agreement | undefined;
  #rounds: Reckoning[] = [];
  #era = 0;
  #isCutOff = true;
  #isClosed = false;
  #timer: ReturnType<typeof setTimeout> | undefined;
  #wake: () => void = () => undefined;

  constructor({ ask, now = () => ownTime().ms }: SharedClockPorts) {
    this.#ask = ask;
    this.#now = now;
    void this.#keepAsking();
  }

  /** Before the first answer the process' own, in an era of its own. */
  time(): SharedTime {
    const nowMs = this.#now();
    const agreed = this.#agreement;
    if (agreed === undefined) return { ms: nowMs, era: this.#era, nodes: "cut-off" };
    const nodes = this.#isCutOff ? "cut-off" : { withinMs: agreed.withinMs };
    return { ms: serverTime(agreed, nowMs), era: this.#era, nodes };
  }

  /** What it says from then on is not put right any more. */
  close(): void {
    this.#isClosed = true;
    clearTimeout(this.#timer);
    this.#wake();
  }

  async #keepAsking(): Promise<void> {
    for (let done = 0; !this.#isClosed; ) {
      const round = await this.#askRound();
      this.#isCutOff = round === undefined;
      if (round !== undefined) this.#take(round);
      done = round === undefined ? 0 : done + 1;
      await this.#pause(restsMs[Math.min(done, restsMs.length - 1)] ?? pingEveryMs);
    }
  }

  /** undefined when one question was not answered: better no round than half of one. */
  async #askRound(): Promise<Reckoning | undefined> {
    const pings: Ping[] = [];
    for (let left = pingsPerRound; left > 0; left -= 1) {
      const sentMs = this.#now();
      const serverMs = await this.#answer();
      if (serverMs === undefined || this.#isClosed) return undefined;
      pings.push({ sentMs, serverMs, cameMs: this.#now() });
      if (this.#agreement === undefined) this.#begin(reckon(pings));
      await this.#pause(pingEveryMs);
    }
    return reckon(pings);
  }

  /** The clock's word; undefined when it is out of reach, or says nothing, as one that hangs. */
  #answer(): Promise<number | undefined> {
    return new Promise((resolve) => {
      const timer = setTimeout(() => resolve(undefined), answerMs);
      timer.unref();
      const settle = (ms?: number) => {
        clearTimeout(timer);
        resolve(ms);
      };
      this.#ask().then(settle, () => settle());
    });
  }

  /** One answer is good enough to begin with. */
  #begin(first: Reckoning | undefined): void {
    this.#agreement = first && agree([first]);
    this.#era += 1;
    this.#isCutOff = false;
  }

  #take(round: Reckoning): void {
    const agreed = this.#agreement;
    const offMs = agreed && round.atMs + round.offsetMs - serverTime(agreed, round.atMs);
    const doubtMs = (agreed?.withinMs ?? 0) + round.withinMs;
    const setMs = Math.max(0, Math.abs(offMs ?? 0) - doubtMs);
    if (setMs > driftedMs) this.#rounds = []; // what they said is of another setting of it
    if (setMs > steppedMs) this.#era += 1;
    this.#rounds.push(round);
    if (this.#rounds.length > roundsMax) this.#rounds.shift();
    this.#agreement = agree(this.#rounds);
  }

  #pause(ms: number): Promise<void> {
    if (this.#isClosed) return Promise.resolve();
    return new Promise((resolve) => {
      this.#wake = resolve;
      this.#timer = setTimeout(resolve, ms);
      this.#timer.unref();
    });
  }
}
