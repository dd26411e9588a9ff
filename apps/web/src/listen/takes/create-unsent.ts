/** Takes that the server does not have yet, listed here and kept in the browser. */
import type { Take, TakeHead } from "@halflap/board/take";
import { createMemo, createSignal } from "solid-js";
import type { Session } from "../../session/session.ts";
import { forgetUnsent, keepUnsent, type UnsentTake, unsentOf } from "./unsent-store.ts";
import { noteWaiting } from "./waiting-mark.ts";

export type SendState =
  /** Until the server is in reach, or does what it refused for now in these words. */
  | { readonly kind: "waiting"; readonly words?: string | undefined }
  /** Part of the whole, 0 to 1. */
  | { readonly kind: "sending"; readonly done: number }
  | { readonly kind: "refused"; readonly words: string };

export type Unsent = UnsentTake & {
  readonly state: SendState;
  /** Whether it outlives the page. */
  readonly isKept: boolean;
};

/** The list, in the order in which they were kept. */
export function createUnsent(session: Session) {
  const [unsent, setUnsent] = createSignal<readonly Unsent[]>([]);
  const change = (key: string, what: Partial<Unsent>) =>
    setUnsent((all) => all.map((each) => (each.key === key ? { ...each, ...what } : each)));
  const note = () => noteWaiting(session.id, unsent().length > 0);
  /** The one of these takes that it has become. */
  const among = <T extends Pick<Take, "from" | "offsetMs" | "lengthMs">>(
    takes: readonly T[],
    { head }: Unsent,
  ): T | undefined =>
    takes.find(
      ({ from, offsetMs, lengthMs }) =>
        from === session.me().id && offsetMs === head.offsetMs && lengthMs === head.lengthMs,
    );
  /** The take on the board already: others hear of one before its sender has the answer. */
  const onBoard = (take: Unsent): Take | undefined => among(session.board.takes, take);
  return {
    all: unsent,
    /** Those that nobody sees on the board yet. */
    shown: createMemo(() => unsent().filter((take) => onBoard(take) === undefined)),
    among,
    onBoard,
    setState: (key: string, state: SendState) => change(key, { state }),
    /** Lets one wait, and tells those that wait already the same reason. */
    wait: (key: string, words: string | undefined) => {
      const state = { kind: "waiting", words } as const;
      const waits = (each: Unsent) => each.key === key || each.state.kind === "waiting";
      setUnsent((all) => all.map((each) => (waits(each) ? { ...each, state } : each)));
    },
    /** Lists one, and answers with its key and when the browser has kept it, if it can. */
    add(head: TakeHead, sound: Blob): { readonly key: string; readonly kept: Promise<void> } {
      const take = { key: session.makeId(), board: session.id, head, sound };
      setUnsent((all) => [...all, { ...take, state: { kind: "waiting" }, isKept: false }]);
      note();
      const kept = keepUnsent(take).then(
        () => void change(take.key, { isKept: true }),
        () => {}, // it is kept as long as the page is open, and the list says so
      );
      return { key: take.key, kept };
    },
    drop(key: string): void {
      setUnsent((all) => all.filter((each) => each.key !== key));
      note();
      // What can't be taken out of the store is found on the board and not sent again.
      forgetUnsent(key).catch(() => {});
    },
    /** Lists what an earlier page left. */
    async recall(): Promise<void> {
      const kept = await unsentOf(session.id);
      const known = new Set(unsent().map(({ key }) => key));
      const more = kept
        .filter(({ key }) => !known.has(key))
        .map((take): Unsent => ({ ...take, state: { kind: "waiting" }, isKept: true }));
      setUnsent((all) => [...more, ...all]);
      note();
    },
  };
}
