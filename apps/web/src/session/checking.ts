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

type Line = CheckDesk & { close(): void };
type Connect = (answer: (answer: CheckAnswer) => void) => Line;

/**
 * Checking that tells `onFindings` the whole list, in reading order, whenever it changed. Ways out
 * are sought by a second worker, made when first asked: findings never wait for a long search.
 */
export function openChecking(
  onFindings: (findings: readonly Finding[]) => void,
  connect: Connect = worker,
): Checking {
  const waiting = new Map<number, (ways: readonly WayOut[]) => void>();
  let known = new Map<string, Finding>();
  let asked = 0;
  let followed: BoardDocuments | undefined;
  let seeker: Line | undefined;
  let unfollow = () => {};
  const answered = (answer: CheckAnswer) => {
    if (answer.kind === "ways") {
      waiting.get(answer.question)?.(answer.ways);
      waiting.delete(answer.question);
      return;
    }
    for (const finding of answer.changed) known.set(finding.id, finding);
    const findings = answer.order.flatMap((id) => known.get(id) ?? []);
    if (known.size > findings.length) {
      known = new Map(findings.map((finding) => [finding.id, finding]));
    }
    onFindings(findings);
  };
  const desk = connect(answered);
  const start = (line: Line, documents: BoardDocuments, tells: boolean) =>
    line.ask({ kind: "start", documents: statesOf(documents), tells });
  const startSeeker = (): Line => {
    seeker = connect(answered);
    if (followed !== undefined) start(seeker, followed, false);
    return seeker;
  };
  return {
    follow(documents) {
      unfollow();
      followed = documents;
      start(desk, documents, true);
      if (seeker !== undefined) start(seeker, documents, false);
      unfollow = onUpdates(documents, (question) => {
        desk.ask(question);
        seeker?.ask(question);
      });
    },
    waysOut(finding) {
      asked += 1;
      const question = asked;
      return new Promise((resolve) => {
        waiting.set(question, resolve);
        (seeker ?? startSeeker()).ask({ kind: "ways", question, finding });
      });
    },
    close() {
      unfollow();
      desk.close();
      seeker?.close();
      for (const resolve of waiting.values()) resolve([]);
      waiting.clear();
    },
  };
}

/** The worker; where workers do not exist the page checks itself, a little later each time. */
function worker(answer: (answer: CheckAnswer) => void): Line {
  if (typeof Worker === "undefined") return inThePage(answer);
  const line = new Worker(new URL("./check-worker.ts", import.meta.url), { type: "module" });
  line.addEventListener("message", (event: MessageEvent<CheckAnswer>) => answer(event.data));
  return { ask: (question) => line.postMessage(question), close: () => line.terminate() };
}

/** Loaded when needed, so that a page with a worker never carries the checker itself. */
function inThePage(answer: (answer: CheckAnswer) => void): Line {
  let isOpen = true;
  const told = (given: CheckAnswer) => {
    if (isOpen) answer(given);
  };
  const desk = import("./check-desk.ts").then(({ makeCheckDesk }) =>
    makeCheckDesk(told, (task) => setTimeout(task)),
  );
  return {
    ask: (question) => void desk.then((ready) => ready.ask(question)),
    close() {
      isOpen = false;
    },
  };
}
