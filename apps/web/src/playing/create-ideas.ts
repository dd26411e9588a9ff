/** Patterns that lock with the other lane's: worked out once asked for, and again after changes. */
import type { Board, LaneId, MemberId, SectionId } from "@halflap/board/board";
import type { StrumIdea } from "@halflap/fitter/interlock";
import { type Accessor, createEffect, createMemo, createSignal, on, onCleanup } from "solid-js";
import { boardStamp, sameStamp } from "../board/board-stamp.ts";
import type { AskIdeas } from "./ideas-line.ts";

export type IdeasState =
  /** Nobody asked, or the first answer is about to come. */
  | { readonly kind: "quiet" }
  | { readonly kind: "working" }
  | { readonly kind: "failed" }
  | { readonly kind: "some"; readonly ideas: readonly StrumIdea[] };

/** Where patterns are asked for; undefined while nobody does. */
export type Asked = { readonly lane: LaneId; readonly section: SectionId };

/** While the board is being changed the question waits for a pause. */
export const pauseMs = 200;

/** What is shown stays until the next answer for the same place comes. */
export function createIdeas(
  board: Board,
  asked: Accessor<Asked | undefined>,
  ask: AskIdeas,
): Accessor<IdeasState> {
  const [state, setState] = createSignal<IdeasState>({ kind: "quiet" });
  const stamp = createMemo(() => (asked() === undefined ? [] : ideasStamp(board)), [], {
    equals: sameStamp,
  });
  let last = "";
  createEffect(
    on([asked, stamp], ([place]) => {
      if (place === undefined) {
        setState({ kind: "quiet" });
        last = "";
        return;
      }
      const here = `${place.lane} ${place.section}`;
      const isNew = here !== last;
      last = here;
      if (isNew) setState({ kind: "working" });
      let isAwaited = true;
      const answer = async () => {
        const next = await ideasFor(board, place, ask);
        if (isAwaited) setState(next);
      };
      const pause = setTimeout(() => void answer(), isNew ? 0 : pauseMs);
      onCleanup(() => {
        isAwaited = false;
        clearTimeout(pause);
      });
    }),
  );
  return state;
}

async function ideasFor(
  board: Board,
  { lane, section }: Asked,
  ask: AskIdeas,
): Promise<IdeasState> {
  try {
    return { kind: "some", ideas: await ask(plainOf(board), lane, section) };
  } catch {
    return { kind: "failed" };
  }
}

/** Everything that can change an answer, read live; their words name who plays. */
function ideasStamp(board: Board): readonly unknown[] {
  const { lanes, members } = board;
  const nameOf = (owner: MemberId | undefined) => members.find(({ id }) => id === owner)?.name;
  return [...boardStamp(board), nameOf(lanes.upper.owner), nameOf(lanes.lower.owner)];
}

/** The board as it stands now, with no live field left: it goes to a worker. */
function plainOf(board: Board): Board {
  const sections = board.sections.map((section) => ({
    ...section,
    bars: section.bars.map((bar) => ({ ...bar, slots: bar.slots.map((slot) => ({ ...slot })) })),
  }));
  const lanes = { upper: { ...board.lanes.upper }, lower: { ...board.lanes.lower } };
  return { ...board, sections, lanes };
}
