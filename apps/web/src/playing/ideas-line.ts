/** The page's side of the search for patterns: a worker that is made when first asked. */
import type { Board, LaneId, SectionId } from "@halflap/board/board";
import type { StrumIdea } from "@halflap/fitter/interlock";

export type IdeasQuestion = {
  readonly question: number;
  readonly board: Board;
  readonly lane: LaneId;
  readonly section: SectionId;
};

export type IdeasReply = { readonly question: number; readonly ideas: readonly StrumIdea[] };

/** Patterns for a lane in a section of a plain board; rejects when they can't be worked out. */
export type AskIdeas = (
  board: Board,
  lane: LaneId,
  section: SectionId,
) => Promise<readonly StrumIdea[]>;

type Waiting = {
  readonly resolve: (ideas: readonly StrumIdea[]) => void;
  readonly reject: (fault: Error) => void;
};

/** A worker that broke is left behind; the next question makes another. */
export function openIdeas(): { readonly ask: AskIdeas; close(): void } {
  const waiting = new Map<number, Waiting>();
  let asked = 0;
  let worker: Worker | undefined;
  const close = () => {
    worker?.terminate();
    worker = undefined;
    for (const { reject } of waiting.values()) reject(new Error("nobody answers any more"));
    waiting.clear();
  };
  const open = () => {
    const made = new Worker(new URL("./ideas-worker.ts", import.meta.url), { type: "module" });
    made.addEventListener("message", ({ data }: MessageEvent<IdeasReply>) => {
      waiting.get(data.question)?.resolve(data.ideas);
      waiting.delete(data.question);
    });
    made.addEventListener("error", close);
    return made;
  };
  return {
    ask(board, lane, section) {
      asked += 1;
      const question: IdeasQuestion = { question: asked, board, lane, section };
      worker ??= open();
      worker.postMessage(question);
      return new Promise((resolve, reject) => waiting.set(question.question, { resolve, reject }));
    },
    close,
  };
}
