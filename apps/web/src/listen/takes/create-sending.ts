/** Takes on their way to the server: kept in this browser until they are there. */

import type { TakeId } from "@halflap/board/ids";
import type { Take, TakeHead } from "@halflap/board/take";
import { createEffect, createMemo, createSignal, on, onCleanup } from "solid-js";
import type { Session } from "../../session/session.ts";
import { sendTake } from "./send-take.ts";
import { forgetUnsent, keepUnsent, type UnsentTake, unsentOf } from "./unsent-store.ts";
import { noteWaiting } from "./waiting-mark.ts";

export type SendState =
  /** Until the server is in reach. */
  | { readonly kind: "waiting" }
  /** Part of the whole, 0 to 1. */
  | { readonly kind: "sending"; readonly done: number }
  | { readonly kind: "refused"; readonly words: string };

export type Unsent = UnsentTake & {
  readonly state: SendState;
  /** Whether it outlives the page. */
  readonly isKept: boolean;
};

/** Refusals that pass by themselves: the take waits. */
const passing: readonly string[] = ["away", "failed", "store-full", "too-many"];

/** Sends what is kept, one after another, and tries again whenever the server is heard of. */
export function createSending(session: Session, onSent: (take: TakeId, from: Unsent) => void) {
  const [unsent, setUnsent] = createSignal<readonly Unsent[]>([]);
  let isSending = false;
  const change = (key: string, change: Partial<Unsent>) =>
    setUnsent((all) => all.map((each) => (each.key === key ? { ...each, ...change } : each)));

  function drop(key: string): void {
    setUnsent((all) => all.filter((each) => each.key !== key));
    noteWaiting(session.id, unsent().length > 0);
    // What can't be taken out of the store would be sent again: twice is better than never.
    forgetUnsent(key).catch(() => {});
  }
  /** The take on the board already: others hear of one before its sender has the answer. */
  const onBoard = ({ head }: Unsent): Take | undefined =>
    session.board.takes.find(
      ({ from, offsetMs, lengthMs }) =>
        from === session.me().id && offsetMs === head.offsetMs && lengthMs === head.lengthMs,
    );
  function settle(take: Unsent, id: TakeId): void {
    onSent(id, take);
    drop(take.key);
  }
  async function sendAll(): Promise<void> {
    if (isSending) return;
    isSending = true;
    try {
      for (const { key } of unsent()) {
        const take = unsent().find((each) => each.key === key);
        if (take?.state.kind === "waiting" && !(await send(take))) return;
      }
    } finally {
      isSending = false;
    }
  }
  /** Whether the next may be tried. */
  async function send(take: Unsent): Promise<boolean> {
    const { key, head, sound } = take;
    const there = onBoard(take);
    if (there !== undefined) {
      settle(take, there.id);
      return true;
    }
    const tell = (done: number) => change(key, { state: { kind: "sending", done } });
    tell(0);
    const answer = await sendTake(session.id, head, sound, tell);
    if (answer.ok) {
      settle(take, answer.value.take.id);
      return true;
    }
    const passes = passing.includes(answer.code);
    change(key, {
      state: passes ? { kind: "waiting" } : { kind: "refused", words: answer.words },
    });
    return !passes;
  }
  /** Answers the key under which it waits. */
  function keep(head: TakeHead, sound: Blob): string {
    const take = { key: session.makeId(), board: session.id, head, sound };
    setUnsent((all) => [...all, { ...take, state: { kind: "waiting" }, isKept: false }]);
    noteWaiting(session.id, true);
    void keepHere(take);
    return take.key;
  }
  async function keepHere(take: UnsentTake): Promise<void> {
    try {
      await keepUnsent(take);
      change(take.key, { isKept: true });
    } catch {
      // It is kept as long as the page is open, and the list says so.
    }
    await sendAll();
  }
  async function resume(): Promise<void> {
    const kept = await unsentOf(session.id);
    const known = new Set(unsent().map(({ key }) => key));
    const more = kept.filter(({ key }) => !known.has(key));
    setUnsent((all) => [
      ...more.map((take): Unsent => ({ ...take, state: { kind: "waiting" }, isKept: true })),
      ...all,
    ]);
    noteWaiting(session.id, unsent().length > 0);
    await sendAll();
  }
  const again = () => void sendAll();
  /** Those that nobody sees on the board yet. */
  const shown = createMemo(() => unsent().filter((take) => onBoard(take) === undefined));
  createEffect(on(() => session.state().kind, again, { defer: true }));
  // One whose answer was lost on the way is not sent twice.
  createEffect(on(() => unsent().length - shown().length, again, { defer: true }));
  addEventListener("online", again);
  onCleanup(() => removeEventListener("online", again));
  void resume();
  return {
    unsent: shown,
    keep,
    drop,
    retry(key: string): void {
      change(key, { state: { kind: "waiting" } });
      void sendAll();
    },
  };
}
