/** Takes on their way to the server: one after another, until they are there. */
import type { TakeId } from "@halflap/board/ids";
import type { TakeHead } from "@halflap/board/take";
import { createEffect, createMemo, on, onCleanup } from "solid-js";
import { type Answer, server } from "../../session/server.ts";
import type { Session } from "../../session/session.ts";
import { createUnsent, type Unsent } from "./create-unsent.ts";
import { sendTake } from "./send-take.ts";

/** Refusals that pass by themselves: the take waits. */
const passing: readonly string[] = ["away", "failed", "store-full", "too-many"];
/**
 * After so long the server, which says nothing by itself, may have room or patience again, or be
 * reached: one call can be lost while the line stays up.
 */
const againMs = 60_000;

/** Sends what is kept, and tries again whenever the server is heard of. */
export function createSending(session: Session, onSent: (take: TakeId, from: Unsent) => void) {
  const unsent = createUnsent(session);
  /** Kept on this page and not tried yet: the server can't have them. */
  const fresh = new Set<string>();
  const sendAll = inTurn(() => unsent.all().find(({ state }) => state.kind === "waiting"), send);
  const sendLater = createLater(() => void sendAll());
  const tell = (key: string) => (done: number) => unsent.setState(key, { kind: "sending", done });
  /** Whether the next may be tried. */
  async function send(take: Unsent): Promise<boolean> {
    tell(take.key)(0);
    const there = await inOneTab(take, () => bring(take));
    return there.ok ? settle(take, there.value) : holdBack(take.key, there);
  }
  /** What it is on the server, which may have it already. */
  async function bring(take: Unsent): Promise<Answer<TakeId>> {
    const there = unsent.onBoard(take);
    if (there !== undefined) return { ok: true, value: there.id };
    // The board may not be as the server has it yet, just after the line is back.
    const known = fresh.delete(take.key) ? undefined : await server.takes(session.id);
    if (known?.ok === false) return known;
    const kept = known && unsent.among(known.value.takes, take);
    if (kept !== undefined) return { ok: true, value: kept.id };
    const answer = await sendTake(session.id, take.head, take.sound, tell(take.key));
    if (answer.ok) return { ok: true, value: answer.value.take.id };
    const came = unsent.onBoard(take);
    return came === undefined ? answer : { ok: true, value: came.id };
  }
  function holdBack(key: string, { code, words }: { code: string; words: string }): boolean {
    if (!passing.includes(code)) {
      unsent.setState(key, { kind: "refused", words });
      return true;
    }
    // Those behind it wait for the same reason.
    unsent.wait(key, code === "away" ? undefined : words);
    sendLater();
    return false;
  }
  function settle(take: Unsent, id: TakeId): true {
    onSent(id, take);
    unsent.drop(take.key);
    return true;
  }
  whenHeardOf(session, unsent, () => void sendAll());
  void unsent.recall().then(sendAll);
  return {
    unsent: unsent.shown,
    drop: unsent.drop,
    /** Answers the key under which it waits. */
    keep(head: TakeHead, sound: Blob): string {
      const { key, kept } = unsent.add(head, sound);
      fresh.add(key);
      void kept.then(sendAll);
      return key;
    },
    retry(key: string): void {
      unsent.setState(key, { kind: "waiting" });
      void sendAll();
    },
  };
}

/** Acts once, a while after it was last asked to, unless the owner is gone by then. */
function createLater(act: () => void): () => void {
  let isGone = false;
  let timer: ReturnType<typeof setTimeout> | undefined;
  onCleanup(() => {
    isGone = true;
    clearTimeout(timer);
  });
  return () => {
    clearTimeout(timer);
    if (!isGone) timer = setTimeout(act, againMs);
  };
}

/** One after another, never two at once: more may come while one is on its way. */
function inTurn(
  next: () => Unsent | undefined,
  send: (take: Unsent) => Promise<boolean>,
): () => Promise<void> {
  let isSending = false;
  return async () => {
    if (isSending) return;
    isSending = true;
    try {
      for (let take = next(); take !== undefined; take = next()) {
        if (!(await send(take))) return;
      }
    } finally {
      isSending = false;
    }
  };
}

/** While another tab of this browser sends the same take, this one waits: then it is there. */
function inOneTab<T>(take: Unsent, act: () => Promise<T>): Promise<T> {
  return "locks" in navigator ? navigator.locks.request(`halflap-take:${take.key}`, act) : act();
}

/** Tells whenever the line, the network or the board says something that may help. */
function whenHeardOf(
  session: Session,
  unsent: ReturnType<typeof createUnsent>,
  again: () => void,
): void {
  createEffect(on(() => session.state().kind, again, { defer: true }));
  // One whose answer was lost on the way is not sent twice.
  const arrived = createMemo(() => unsent.all().length - unsent.shown().length);
  createEffect(on(arrived, again, { defer: true }));
  addEventListener("online", again);
  onCleanup(() => removeEventListener("online", again));
}
