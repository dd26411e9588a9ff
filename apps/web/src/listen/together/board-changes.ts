/**
 * Bars come, go or change their tempo under what is played: whoever started it says where it stands
 * now, and if they don't, another does.
 */
import { createEffect, createMemo, on, onCleanup, untrack } from "solid-js";
import { turnAsk } from "./asks.ts";
import type { Bond } from "./bond.ts";
import { type Course, courseOf, isSameCourse } from "./course.ts";
import type { Word } from "./following.ts";

/** From the last change until who started it says so: typing may not be over. */
const ownWaitMs = 300;
/** The others wait at least so long whether they do. */
const othersWaitMs = 2_000;

type Known = Word & { readonly course: Course };

/** `onDrift` is told of a revision that no longer says where the tune stands. */
export function followBoard(bond: Bond, onDrift: (revision: number) => void): void {
  const known = createMemo<Known | undefined>(() => {
    const now = bond.word();
    return now && { ...now, course: courseOf(bond.timed(), now.play.loop) };
  });
  let timer: ReturnType<typeof setTimeout> | undefined;
  let first: Known | undefined;
  /** As the board is by then: what was changed may have been changed back. */
  const sayWhere = (before: Course) => {
    const [at, now] = [bond.nowThere(), untrack(known)];
    if (at === undefined || now === undefined || !bond.isMeeting()) return;
    bond.ask(turnAsk({ before, after: now.course }, now.play, {}, at));
  };
  createEffect(
    on(known, (now) => {
      if (now === undefined || first?.revision !== now.revision) {
        clearTimeout(timer);
        first = now;
        return;
      }
      if (isSameCourse(now.course, first.course) || !bond.isMeeting()) return;
      onDrift(now.revision);
      clearTimeout(timer);
      const told = bond.told();
      const isOwn = told?.kind === "word" && told.by === bond.session.me().id;
      const waitMs = isOwn ? ownWaitMs : othersWaitMs * (1 + Math.random());
      timer = setTimeout(sayWhere, waitMs, first.course);
    }),
  );
  onCleanup(() => clearTimeout(timer));
}
