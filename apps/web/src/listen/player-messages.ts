/** What the page, the conductor beside it and the player in the audio say to each other. */
import type { BarId, Board } from "@halflap/board/board";
import type { PartSetting } from "@halflap/sound/mix";
import type { Part, PlayEvent } from "@halflap/sound/play-event";
import type { Swing } from "@halflap/timeline/swing";
import type { Loop } from "./order-of-play.ts";
import type { Plan } from "./play-clock.ts";
import type { Meeting } from "./together/meeting.ts";
import type { Trial } from "./trial.ts";

/** How the person wants it played. */
export type Wishes = {
  /** 1 = as the board says. */
  readonly tempoFactor: number;
  readonly countsIn: boolean;
  /** How far off-beats are late where the board swings. */
  readonly swing: Swing;
  readonly loop: Loop | undefined;
};

/** From the page to the conductor. */
export type Request =
  /** Fields of the board that say something else than before; at first all of them. */
  | { readonly kind: "board"; readonly fields: Partial<Board> }
  | { readonly kind: "wishes"; readonly wishes: Wishes }
  /** From this bar, else from the start of what is chosen. */
  | { readonly kind: "play"; readonly bar: BarId | undefined }
  | { readonly kind: "try"; readonly trial: Trial }
  /** What is played together, instead of the person's own tempo and loop. */
  | { readonly kind: "meet"; readonly meeting: Meeting }
  | { readonly kind: "stop" };

/** From the conductor to the page. */
export type Report =
  | { readonly kind: "plan"; readonly plan: Plan }
  | { readonly kind: "stopped"; readonly why: "asked" | "end" | "nothing" };

/**
 * Between the page and the conductor, with the number of the newest request to play or stop that
 * the page had made by then, or that the conductor had heard.
 */
export type Numbered<T> = { readonly what: T; readonly number: number };

/** From the conductor to the player; mixing comes from the page itself. */
export type PlayerOrder =
  | {
      readonly kind: "events";
      readonly events: readonly PlayEvent[];
      /** The sample of their time 0. */
      readonly origin: number;
      readonly generation: number;
    }
  | { readonly kind: "replace"; readonly from: number; readonly generation: number }
  | { readonly kind: "mix"; readonly part: Part; readonly setting: PartSetting }
  | { readonly kind: "stop" };

/** From the player to both: samples given so far, and the audio's own time then, in seconds. */
export type Position = { readonly sample: number; readonly time: number };
