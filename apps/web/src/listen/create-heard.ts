/** What of the plan is heard now: the bar, and whether only strings ring on. */
import { createSignal } from "solid-js";
import { type Heard, heardAt, isSameHeard } from "./heard.ts";
import type { Plan } from "./play-clock.ts";

/** Nothing at first. */
export function createHeard() {
  const [heard, setHeard] = createSignal<Heard | undefined>(undefined, { equals: isSameHeard });
  const [isOver, setOver] = createSignal(false);
  let plan: Plan | undefined;
  /** Told already, but what plays goes on until its first sample. */
  let coming: Plan | undefined;
  return {
    heard,
    /** Whether the last bar is over and strings ring on. */
    isOver,
    /** The newest plan; undefined while nothing is played. */
    plan: () => coming ?? plan,
    turnTo(next: Plan): void {
      if (plan === undefined) plan = next;
      else coming = next;
    },
    forget(): void {
      plan = undefined;
      coming = undefined;
      setHeard(undefined);
      setOver(false);
    },
    /** This sample leaves the loudspeaker now. */
    hear(sample: number): void {
      if (coming !== undefined && sample >= coming.anchor.sample) {
        plan = coming;
        coming = undefined;
      }
      const now = plan && heardAt(plan, sample);
      setHeard(now);
      setOver(plan !== undefined && sample > plan.anchor.sample && now === undefined);
    },
  };
}
