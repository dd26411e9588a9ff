/** Those who sound along with what is played: told where it is, about fifty times a second. */
import type { Plan } from "./play-clock.ts";
import type { Position } from "./player-messages.ts";

/** How what is played lies in the audio's time; `plan` is undefined while nothing is. */
export type Sounding = {
  readonly context: AudioContext;
  readonly plan: Plan | undefined;
  /** The time of the context in seconds at which the player's sample 0 lies. */
  readonly origin: number;
};

export type Companion = (now: Sounding) => void;

/** Nobody at first; `plan` and `position` tell them what changes. */
export function makeCompanions(context: () => AudioContext | undefined) {
  const companions = new Set<Companion>();
  let plan: Plan | undefined;
  let origin: number | undefined;
  function tell(): void {
    const audio = context();
    if (audio === undefined || origin === undefined) return;
    for (const companion of companions) companion({ context: audio, plan, origin });
  }
  return {
    /** Tells a companion from now on, until what is answered is called. */
    follow(companion: Companion): () => void {
      companions.add(companion);
      return () => companions.delete(companion);
    },
    plan(next: Plan | undefined): void {
      plan = next;
      tell();
    },
    position({ sample, time }: Position): void {
      // Both come from the audio's own thread, so this is the same figure each time.
      origin = time - sample / (context()?.sampleRate ?? 1);
      tell();
    },
  };
}
