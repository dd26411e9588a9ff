/** What a person changes while all play, asked for once the slider rests. */
import type { BarId } from "@halflap/board/board";
import { onCleanup } from "solid-js";
import type { Wishes } from "../player-messages.ts";
import { jumpAsk, turnAsk } from "./asks.ts";
import type { Bond } from "./bond.ts";
import { courseOf } from "./course.ts";

const sliderRestMs = 150;

/** Tempo and loop, and another bar; nothing is asked while this browser is not along. */
export function makeTurning({ isMeeting, word, nowThere, timed, wishes, ask }: Bond) {
  let timer: ReturnType<typeof setTimeout> | undefined;
  onCleanup(() => clearTimeout(timer));
  function askNow(): void {
    const [now, at] = [word(), nowThere()];
    if (!isMeeting() || !now || at === undefined) return;
    const { tempoFactor, loop } = wishes();
    const before = courseOf(timed(), now.play.loop);
    const after = courseOf(timed(), loop);
    const percent = Math.round(tempoFactor * 100);
    ask(turnAsk({ before, after }, now.play, { percent, loop }, at));
  }
  return {
    /** Everybody follows from the next bar on. */
    turn(change: Partial<Wishes>): void {
      if (!isMeeting() || !("tempoFactor" in change || "loop" in change)) return;
      clearTimeout(timer);
      timer = setTimeout(askNow, sliderRestMs);
    },
    /** Everybody goes to this bar once the present one is over. */
    jump(bar: BarId): void {
      const [now, at] = [word(), nowThere()];
      if (!now || at === undefined) return;
      ask(jumpAsk(courseOf(timed(), now.play.loop), now.play, bar, at));
    },
  };
}
