/** What a person changes while all play, asked for once the slider rests. */
import type { BarId } from "@halflap/board/board";
import { onCleanup } from "solid-js";
import type { Wishes } from "../player-messages.ts";
import { jumpAsk, turnAsk } from "./asks.ts";
import type { Bond } from "./bond.ts";
import { courseOf } from "./course.ts";

const sliderRestMs = 150;

/** What all hear alike. */
type Turn = Partial<Pick<Wishes, "tempoFactor" | "loop">>;

/** Tempo and loop, and another bar; nothing is asked while this browser is not along. */
export function makeTurning({ isMeeting, word, nowThere, timed, ask }: Bond) {
  let timer: ReturnType<typeof setTimeout> | undefined;
  /** Nothing else: what the others changed meanwhile stays as they did. */
  let wanted: Turn = {};
  onCleanup(() => clearTimeout(timer));
  function askNow(): void {
    const [now, at, turn] = [word(), nowThere(), wanted];
    wanted = {};
    if (!isMeeting() || !now || at === undefined) return;
    const { play } = now;
    const { tempoFactor, loop } = { tempoFactor: play.percent / 100, loop: play.loop, ...turn };
    const before = courseOf(timed(), play.loop);
    const after = courseOf(timed(), loop);
    ask(turnAsk({ before, after }, play, { percent: Math.round(tempoFactor * 100), loop }, at));
  }
  return {
    /** Everybody follows from the next bar on. */
    turn(change: Partial<Wishes>): void {
      if (!isMeeting() || !("tempoFactor" in change || "loop" in change)) return;
      if (change.tempoFactor !== undefined) {
        wanted = { ...wanted, tempoFactor: change.tempoFactor };
      }
      if ("loop" in change) wanted = { ...wanted, loop: change.loop };
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
