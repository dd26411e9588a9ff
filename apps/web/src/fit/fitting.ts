/** The page's side of the fitting: a worker that is fed the board, asked, and ended to cancel. */
import type { FitProgress, FitRequest, FitResult } from "@halflap/fitter/answer";
import type { Mending } from "@halflap/fitter/mended";
import type { NextBest } from "@halflap/fitter/why";
import type { FeedMessage } from "../session/board-feed.ts";
import { fitWords } from "../words/fit.ts";
import type { FitQuestion, FitReply, WhyPlace } from "./fit-messages.ts";

/** How a fit ended. */
export type FitEnd =
  | { readonly kind: "done"; readonly result: FitResult }
  | { readonly kind: "cancelled" }
  | { readonly kind: "failed"; readonly words: string };

/** What came of a question about an answer. */
export type Told<T> =
  | { readonly kind: "found"; readonly value: T }
  /** The answer is not known any more. */
  | { readonly kind: "gone" }
  | { readonly kind: "failed"; readonly words: string };

export type Fitting = {
  fit(request: FitRequest, onProgress: (progress: FitProgress) => void): Promise<FitEnd>;
  /** Next best grips. */
  why(answer: string, at: WhyPlace): Promise<Told<readonly NextBest[]>>;
  mend(answer: string): Promise<Told<Mending>>;
  /** Ends whatever is worked on; its askers are told. */
  cancel(): void;
  close(): void;
};

export type FitLine = { ask(question: FitQuestion): void; close(): void };

/** Replies come one by one; a line that broke says why and is of no more use. */
type Connect = (reply: (reply: FitReply) => void, broke: (words: string) => void) => FitLine;

type Feed = (send: (message: FeedMessage) => void) => () => void;

/** Is told `undefined` when nothing comes any more. */
type Asker = (reply: FitReply | undefined) => void;

/** A line is made when first asked, and again after each `cancel`. */
export function openFitting(feed: Feed, connect: Connect = worker): Fitting {
  const waiting = new Map<number, Asker>();
  let asked = 0;
  let open: { readonly line: FitLine; readonly unfeed: () => void } | undefined;

  function line(): FitLine {
    if (open === undefined) {
      const made = connect(
        (reply) => waiting.get(reply.question)?.(reply),
        (words) => end((question) => ({ kind: "failed", question, words })),
      );
      open = { line: made, unfeed: feed(made.ask) };
    }
    return open.line;
  }
  /** Several replies may come; `isLast` says which is the last. */
  function ask<T>(
    make: (question: number) => FitQuestion,
    read: (reply: FitReply | undefined) => { readonly last: T } | undefined,
  ): Promise<T> {
    asked += 1;
    const question = asked;
    return new Promise((resolve) => {
      waiting.set(question, (reply) => {
        const end = read(reply);
        if (end === undefined) return;
        waiting.delete(question);
        resolve(end.last);
      });
      line().ask(make(question));
    });
  }
  function end(reply: (question: number) => FitReply | undefined): void {
    open?.unfeed();
    open?.line.close();
    open = undefined;
    for (const [question, asker] of [...waiting]) asker(reply(question));
  }
  const cancel = () => end(() => undefined);
  return {
    fit: (request, onProgress) =>
      ask((question) => ({ kind: "fit", question, request }), fitReader(onProgress)),
    why: (answer, at) =>
      ask(
        (question) => ({ kind: "why", question, answer, at }),
        (reply) => ({ last: told(reply, reply?.kind === "why" ? reply.next : undefined) }),
      ),
    mend: (answer) =>
      ask(
        (question) => ({ kind: "mend", question, answer }),
        (reply) => ({ last: told(reply, reply?.kind === "mended" ? reply.mending : undefined) }),
      ),
    cancel,
    close: cancel,
  };
}

/** Progress is told on; anything else is the end. */
function fitReader(onProgress: (progress: FitProgress) => void) {
  return (reply: FitReply | undefined): { readonly last: FitEnd } | undefined => {
    if (reply?.kind !== "progress") return { last: endOf(reply) };
    onProgress(reply.progress);
    return undefined;
  };
}

function endOf(reply: FitReply | undefined): FitEnd {
  if (reply?.kind === "result") return { kind: "done", result: reply.result };
  if (reply?.kind === "failed") return { kind: "failed", words: reply.words };
  return { kind: "cancelled" };
}

function told<T>(reply: FitReply | undefined, value: T | undefined): Told<T> {
  if (reply?.kind === "failed") return { kind: "failed", words: reply.words };
  return value === undefined ? { kind: "gone" } : { kind: "found", value };
}

function worker(reply: (reply: FitReply) => void, broke: (words: string) => void): FitLine {
  const line = new Worker(new URL("./fit-worker.ts", import.meta.url), { type: "module" });
  line.addEventListener("message", (event: MessageEvent<FitReply>) => reply(event.data));
  // A script that could not be fetched is told by an event that says nothing.
  line.addEventListener("error", (event) => broke(event.message || fitWords.notFetched));
  return { ask: (question) => line.postMessage(question), close: () => line.terminate() };
}
