/** How this browser comes into what is played together, starts it, and goes on without it. */
import type { BarId } from "@halflap/board/board";
import { togetherCountInMax } from "@halflap/wire/limits";
import { untrack } from "solid-js";
import { isInForm, sectionMeant } from "../sections-alone.ts";
import { type Start, startAsk } from "./asks.ts";
import type { Bond, StartTrouble } from "./bond.ts";
import { courseOf } from "./course.ts";

/** How long a press waits for the clocks, or for the server's word. */
const patienceMs = 5_000;
const lookEveryMs = 50;

export type Entering = {
  /** Starts it for everybody, within a press. */
  start(bar: BarId | undefined): Promise<void>;
  /** Comes along, within a press or after one; false, and said why, without sound. */
  joinIn(): Promise<boolean>;
  /** The others go on; what sounds here is this browser's own matter. */
  leave(): void;
};

/** `onRest` is told that the sound begins anew. */
export function makeEntering(bond: Bond, onRest: () => void): Entering {
  const { sound, word, setWilling, setMeeting, setTrouble } = bond;
  function leave(): void {
    setWilling(false);
    setMeeting(false);
  }
  function giveUp(why: StartTrouble): void {
    leave();
    sound.stop();
    setTrouble(why);
  }
  async function joinIn(): Promise<boolean> {
    const now = untrack(word);
    if (now !== undefined) {
      bond.adopt({ tempoFactor: now.play.percent / 100, loop: now.play.loop });
    }
    return begin();
  }
  async function begin(): Promise<boolean> {
    setTrouble(undefined);
    setWilling(true);
    setMeeting(true);
    bond.onBegin();
    onRest();
    const isReady = await sound.join();
    if (!isReady) leave();
    return isReady;
  }
  async function start(bar: BarId | undefined): Promise<void> {
    const before = untrack(word)?.revision;
    if (!(await begin())) return;
    const now = await soon(bond.nowThere);
    if (!untrack(bond.isMeeting)) return;
    if (now === undefined) return giveUp("unreached");
    const first = startOf(bond, bar);
    if (!bond.ask(startAsk(courseOf(bond.timed(), first.loop), first, now))) {
      return giveUp("nothing");
    }
    const isTold = await soon(() => word()?.revision !== before || undefined);
    if (isTold === undefined && untrack(bond.isMeeting)) giveUp("unreached");
  }
  return { start, joinIn, leave };
}

function startOf({ session, wishes, timed }: Bond, bar: BarId | undefined): Start {
  const { tempoFactor, countsIn, loop } = wishes();
  const section = sectionMeant(timed(), loop, bar);
  const isOutside = section !== undefined && !isInForm(timed(), section);
  const countIn = countsIn ? Math.min(togetherCountInMax, Math.max(1, session.board.countIn)) : 0;
  return {
    bar,
    // A bar that the form leaves out is reached by its section going round.
    loop: loop ?? (isOutside ? { kind: "section", section } : undefined),
    percent: Math.round(tempoFactor * 100),
    countIn,
  };
}

/** The value once there is one; undefined when it takes too long. */
async function soon<T>(value: () => T | undefined): Promise<T | undefined> {
  const end = performance.now() + patienceMs;
  for (;;) {
    const now = untrack(value);
    if (now !== undefined || performance.now() > end) return now;
    await new Promise((resolve) => setTimeout(resolve, lookEveryMs));
  }
}
