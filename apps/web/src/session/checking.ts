/** The page's side of the checking: documents go to the worker, findings and ways out come back. */
import type { BoardDocuments } from "@halflap/board/documents";
import type { Finding } from "@halflap/checker/finding";
import type { WayOut } from "@halflap/checker/ways-out";
import { onUpdates, statesOf } from "./board-feed.ts";
import type { CheckAnswer, CheckDesk } from "./check-messages.ts";

export type Checking = {
  /** Follows these documents from now on. */
  follow(documents: BoardDocuments): void;
  /** What could be done about a finding, best first; empty when it is gone meanwhile. */
  waysOut(finding: string): Promise<readonly WayOut[]>;
  close(): void;
};

type Answer = (answer: CheckAnswer) => void;
type Line = CheckDesk & { close(): void };
/** `onFailed` is told once, when no answer can be hoped for any more. */
type Connect = (answer: Answer, onFailed: () => void) => Line;
type Asked = { readonly finding: string; resolve(ways: readonly WayOut[]): void };

/**
 * Checking that tells `onFindings` the whole list, in reading order, whenever it changed. Ways out
 * are sought by a second worker, made when first asked: findings never wait for a long search.
 */
export function openChecking(
  onFindings: (findings: readonly Finding[]) => void,
  connect: Connect = worker,
): Checking {
  const waiting = new Map<number, Asked>();
  const wholeList = makeWholeList();
  let asked = 0;
  let followed: BoardDocuments | undefined;
  let seeker: Line | undefined;
  let unfollow = () => {};
  const answered = (answer: CheckAnswer) => {
    if (answer.kind === "findings") return onFindings(wholeList(answer));
    waiting.get(answer.question)?.resolve(answer.ways);
    waiting.delete(answer.question);
  };
  const start = (line: CheckDesk, tells: boolean) => {
    if (followed === undefined) return;
    line.ask({ kind: "start", documents: statesOf(followed), tells });
  };
  const desk = openLine(connect, answered, (line) => start(line, true));
  const openSeeker = () =>
    openLine(connect, answered, (line) => {
      start(line, false);
      for (const [question, { finding }] of waiting) line.ask({ kind: "ways", question, finding });
    });
  return {
    follow(documents) {
      unfollow();
      followed = documents;
      start(desk, true);
      if (seeker !== undefined) start(seeker, false);
      unfollow = onUpdates(documents, (question) => {
        desk.ask(question);
        seeker?.ask(question);
      });
    },
    waysOut(finding) {
      asked += 1;
      const question = asked;
      return new Promise((resolve) => {
        waiting.set(question, { finding, resolve });
        if (seeker === undefined) seeker = openSeeker();
        else seeker.ask({ kind: "ways", question, finding });
      });
    },
    close() {
      unfollow();
      desk.close();
      seeker?.close();
      for (const { resolve } of waiting.values()) resolve([]);
      waiting.clear();
    },
  };
}

/** Puts the whole list together from what changed. */
function makeWholeList() {
  let known = new Map<string, Finding>();
  return ({ order, changed }: Extract<CheckAnswer, { kind: "findings" }>): readonly Finding[] => {
    for (const finding of changed) known.set(finding.id, finding);
    const findings = order.flatMap((id) => known.get(id) ?? []);
    if (known.size > findings.length) {
      known = new Map(findings.map((finding) => [finding.id, finding]));
    }
    return findings;
  };
}

/** A line that goes on in the page when it fails; `begin` tells what a new one has to know. */
function openLine(connect: Connect, answer: Answer, begin: (line: CheckDesk) => void): Line {
  let line = connect(answer, () => {
    line.close();
    line = inThePage(answer);
    begin(line);
  });
  begin(line);
  return { ask: (question) => line.ask(question), close: () => line.close() };
}

/** The worker; where workers do not exist the page checks itself, a little later each time. */
function worker(answer: Answer, onFailed: () => void): Line {
  if (typeof Worker === "undefined") return inThePage(answer);
  const line = new Worker(new URL("./check-worker.ts", import.meta.url), { type: "module" });
  line.addEventListener("message", (event: MessageEvent<CheckAnswer>) => answer(event.data));
  line.addEventListener("error", onFailed, { once: true });
  return { ask: (question) => line.postMessage(question), close: () => line.terminate() };
}

/** Loaded when needed, so that a page with a worker never carries the checker itself. */
function inThePage(answer: Answer): Line {
  let isOpen = true;
  const told = (given: CheckAnswer) => {
    if (isOpen) answer(given);
  };
  const desk = import("./check-desk.ts").then(({ makeCheckDesk }) =>
    makeCheckDesk(told, (task) => setTimeout(task)),
  );
  return {
    ask(question) {
      // Whoever asked does not wait for what can't be loaded.
      const giveUp = () => {
        if (question.kind === "ways") told({ ...question, ways: [] });
      };
      void desk.then((ready) => ready.ask(question)).catch(giveUp);
    },
    close() {
      isOpen = false;
    },
  };
}
