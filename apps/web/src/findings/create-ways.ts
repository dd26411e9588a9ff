/** The ways out of a finding as they are worked out beside the page: asked for, awaited, shown. */
import type { Finding } from "@halflap/checker/finding";
import type { WayOut } from "@halflap/checker/ways-out";
import { createEffect, createSignal, on, onCleanup } from "solid-js";
import type { Session } from "../session/session.ts";

export type WaysState =
  /** Nothing to show: just asked, or a finding that needs no way out. */
  | { readonly kind: "quiet" }
  | { readonly kind: "working" }
  | { readonly kind: "none" }
  | { readonly kind: "some"; readonly ways: readonly WayOut[] };

/** What takes longer than this says that it is being worked out. */
export const patienceMs = 300;
/** While the board is being changed the question waits for a pause. */
export const pauseMs = 150;

/** Asks anew whenever the board was checked again; what is shown stays until the answer comes. */
export function createWays(
  session: Pick<Session, "findings" | "waysOut">,
  finding: () => Finding,
): () => WaysState {
  const [state, setState] = createSignal<WaysState>({ kind: "quiet" });
  let isFirst = true;
  createEffect(
    on([() => finding().id, session.findings], ([id]) => {
      if (finding().severity === "note") return;
      let isAwaited = true;
      const patience = setTimeout(() => {
        if (state().kind === "quiet") setState({ kind: "working" });
      }, patienceMs);
      const ask = async () => {
        const ways = await session.waysOut(id);
        if (!isAwaited) return;
        clearTimeout(patience);
        setState(ways.length === 0 ? { kind: "none" } : { kind: "some", ways });
      };
      const pause = setTimeout(() => void ask(), isFirst ? 0 : pauseMs);
      isFirst = false;
      onCleanup(() => {
        isAwaited = false;
        clearTimeout(pause);
        clearTimeout(patience);
      });
    }),
  );
  return state;
}
