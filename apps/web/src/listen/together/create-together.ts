/**
 * Playing together as the page sees it: what is told, whether this browser is along, and what a
 * press asks for. Everybody, the one who pressed too, plays what the server tells.
 */
import type { BarId } from "@halflap/board/board";
import { createEffect, on, untrack } from "solid-js";
import { followBoard } from "./board-changes.ts";
import { type Bond, createBond, type TogetherSource } from "./bond.ts";
import { createHold } from "./create-hold.ts";
import { createPlace } from "./create-place.ts";
import { type Entering, makeEntering } from "./entering.ts";
import { makeTurning } from "./turning.ts";

export type Together = ReturnType<typeof createTogether>;

/** Off until somebody presses. */
export function createTogether(source: TogetherSource) {
  const bond = createBond(source);
  const { session, sound, told, isMeeting } = bond;
  const wire = session.together;
  const hold = createHold(bond);
  const entering = makeEntering(bond, hold.begin);
  followWord(bond, entering);
  followSound(bond);
  followBoard(bond, hold.drift);
  return {
    /** Who said what is played now: a member's id. */
    by: () => {
      const now = told();
      return now?.kind === "word" ? now.by : undefined;
    },
    /** Where the others are; undefined where nothing is played together. */
    place: createPlace(bond),
    isMeeting,
    isReachable: () => wire().isOpen(),
    trouble: bond.trouble,
    agreement: bond.agreement,
    /** Everybody else who hears it, with how well their clocks agree. */
    others: () => session.presence().filter(({ withinMs }) => withinMs !== undefined),
    nudge: hold.nudge,
    setNudge: hold.setNudge,
    start: (bar: BarId | undefined) => void entering.start(bar),
    joinIn: () => void entering.joinIn(),
    /** What sounds here next is this browser's own matter. */
    leave: entering.leave,
    /** Silent here; the others go on. */
    dropOut() {
      entering.leave();
      sound.stop();
    },
    /** Nobody plays it any more; here at once, also when the server is away. */
    stop() {
      const line = untrack(wire);
      if (untrack(line.isOpen)) line.ask({ kind: "stopped" });
      // The others go on then: it must not begin here again by itself once the line is back.
      else entering.leave();
      sound.stop();
    },
    ...makeTurning(bond),
  };
}

/** Whoever was willing once plays whatever is played next, unless they play something alone. */
function followWord(bond: Bond, { joinIn }: Entering): void {
  const { told, word, isWilling, isMeeting, sound, adopt } = bond;
  const onTold = () => {
    const now = word();
    if (now === undefined) {
      if (isMeeting() && told()?.kind === "word") sound.stop();
      return;
    }
    if (!isWilling()) return;
    adopt({ tempoFactor: now.play.percent / 100, loop: now.play.loop });
    if (!isMeeting() && !sound.isOn()) void joinIn();
  };
  createEffect(on(told, onTold, { defer: true }));
}

/** It came to its end, was stopped, or can't be had; while it goes on, the others see how well. */
function followSound({ session, sound, isMeeting, setMeeting, agreement }: Bond): void {
  const onRest = (isOn: boolean) => {
    if (!isOn) setMeeting(false);
  };
  createEffect(on(sound.isOn, onRest, { defer: true }));
  createEffect(() => {
    const within = isMeeting() ? agreement()?.withinMs : undefined;
    session.setWithin(within === undefined ? undefined : Math.ceil(within));
  });
}
