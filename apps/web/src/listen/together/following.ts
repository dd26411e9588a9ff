/**
 * Holds the sound of this browser to what is played together: where the shared moment lies in its
 * samples, asked again and again, and put right when it has moved.
 */
import { type Agreement, serverTime } from "@halflap/wire/agreement";
import type { SharedPlay } from "@halflap/wire/together";
import type { Plan } from "../play-clock.ts";
import { againAsk } from "./asks.ts";
import type { Meeting } from "./meeting.ts";
import { type AudioMoment, heardMs, SoundClock } from "./sound-clock.ts";

/** What is played, as the server told it. */
export type Word = { readonly revision: number; readonly play: SharedPlay };

/** What was sent to the conductor last. */
type Sent = { readonly revision: number; readonly sample: number; readonly atMs: number };

/** Less is not put right: the audio's clock is not known better. */
const toleranceMs = 2;
/** Not more often than this. */
const restMs = 1_000;

/** Of one audio context; told where the audio is about fifty times a second. */
export class Following {
  readonly #sampleRate: number;
  readonly #clock: SoundClock;
  #sent: Sent | undefined;

  constructor(sampleRate: number) {
    this.#sampleRate = sampleRate;
    this.#clock = new SoundClock(sampleRate);
  }

  /** `origin` is the context's time at the player's sample 0, in seconds. */
  read(moment: AudioMoment, origin: number): void {
    this.#clock.read(heardMs(moment, origin));
  }

  /** Begins anew: after a rest, or when the sound is to be shifted. */
  forget(what: "all" | "sent"): void {
    this.#sent = undefined;
    if (what === "all") this.#clock.forget();
  }

  /**
   * What the conductor has to be told now; undefined when all is as it should be, or when it is too
   * early to say. `nudgeMs` later than the clocks say.
   */
  meeting(
    { revision, play }: Word,
    agreement: Agreement,
    nowMs: number,
    nudgeMs: number,
  ): Meeting | undefined {
    const sample = this.#sampleOf(play.atMs, agreement, nowMs, nudgeMs);
    if (sample === undefined) return undefined;
    const sent = this.#sent?.revision === revision ? this.#sent : undefined;
    const offMs = sent && (Math.abs(sample - sent.sample) / this.#sampleRate) * 1000;
    const isRight = offMs !== undefined && offMs < toleranceMs;
    if (sent && (isRight || nowMs - sent.atMs < restMs)) return undefined;
    this.#sent = { revision, sample, atMs: nowMs };
    const { tick, countIn, percent, loop } = play;
    return { tick, sample, counted: countIn, tempoFactor: percent / 100, loop };
  }

  /** What is asked for anew where the server has forgotten what this browser plays. */
  again(plan: Plan, play: SharedPlay, agreement: Agreement, nowMs: number): SharedPlay | undefined {
    const pageMs = this.#clock.pageMsAt(plan.anchor.sample);
    if (pageMs === undefined) return undefined;
    const samplesPerTick = (plan.anchor.samplesPerTick / this.#sampleRate) * 1000;
    const outline = { ...plan, anchor: { ...plan.anchor, sample: pageMs, samplesPerTick } };
    return againAsk(outline, play, nowMs, (ms) => serverTime(agreement, ms));
  }

  /**
   * Told from now, not from the moment itself: over many minutes the clocks' rates would tell more
   * than their agreement does.
   */
  #sampleOf(
    atMs: number,
    agreement: Agreement,
    nowMs: number,
    nudgeMs: number,
  ): number | undefined {
    const serverNow = serverTime(agreement, nowMs);
    const now = this.#clock.sampleAt(nowMs + nudgeMs);
    return now === undefined ? undefined : now - ((serverNow - atMs) / 1000) * this.#sampleRate;
  }
}
