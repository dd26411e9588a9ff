/** Where the fitting is done, in the worker: a board that is fed, and the questions about it. */
import type { Board } from "@halflap/board/board";
import type { Answer, FitProgress, FitRequest, FitResult } from "@halflap/fitter/answer";
import type { Mending } from "@halflap/fitter/mended";
import type { NextBest } from "@halflap/fitter/why";
import { makeFedBoard } from "../session/board-feed.ts";
import type { FitQuestion, FitReply, WhyPlace } from "./fit-messages.ts";

/** The fitter as the desk uses it, with its fast product at hand. */
export type Fitter = {
  fit(board: Board, request: FitRequest, onProgress: (progress: FitProgress) => void): FitResult;
  why(board: Board, request: FitRequest, answer: Answer, at: WhyPlace): readonly NextBest[];
  mend(board: Board, answer: Answer, request: FitRequest): Mending;
};

/** What the last fit was asked, of which board, and what it answered. */
type Fitted = {
  readonly board: Board;
  readonly request: FitRequest;
  readonly answers: ReadonlyMap<string, Answer>;
};

/**
 * Answers in the order of the questions. Those about an answer are about the board that it was
 * found for, whatever has been changed since.
 */
export function makeFitDesk(
  reply: (reply: FitReply) => void,
  fitter: Fitter,
): { ask(question: FitQuestion): void } {
  const fed = makeFedBoard();
  let last: Fitted | undefined;

  function fit(question: number, request: FitRequest): void {
    const board = fed.read();
    const result = fitter.fit(board, request, (progress) =>
      reply({ kind: "progress", question, progress }),
    );
    const answers = result.kind === "answers" ? result.answers : [];
    last = { board, request, answers: new Map(answers.map((answer) => [answer.id, answer])) };
    reply({ kind: "result", question, result });
  }
  function why(question: number, id: string, at: WhyPlace): void {
    const answer = last?.answers.get(id);
    const next = last && answer && fitter.why(last.board, last.request, answer, at);
    reply({ kind: "why", question, next });
  }
  function mend(question: number, id: string): void {
    const answer = last?.answers.get(id);
    const mending = last && answer && fitter.mend(last.board, answer, last.request);
    reply({ kind: "mended", question, mending });
  }
  return {
    ask(asked) {
      if (!("question" in asked)) return fed.take(asked);
      const { question } = asked;
      try {
        if (asked.kind === "fit") fit(question, asked.request);
        else if (asked.kind === "why") why(question, asked.answer, asked.at);
        else mend(question, asked.answer);
      } catch (error) {
        reply({ kind: "failed", question, words: String(error) });
      }
    },
  };
}
