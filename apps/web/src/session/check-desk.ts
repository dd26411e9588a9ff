/**
 * Where the checking is done, in the worker or, where there is none, in the page: a copy of the
 * documents that follows their updates, and what is found in it.
 */
import { type BoardDocuments, documentNames, emptyDocuments } from "@halflap/board/documents";
import { makeReader } from "@halflap/board/read";
import { makeChecker } from "@halflap/checker/check";
import type { Finding } from "@halflap/checker/finding";
import { waysOut } from "@halflap/checker/ways-out";
import * as Y from "yjs";
import type { CheckAnswer, CheckDesk } from "./check-messages.ts";

/**
 * Several updates in a row are checked once: `later` runs a task after what already waits, so that
 * a queue of updates is worked off first.
 */
export function makeCheckDesk(
  answer: (answer: CheckAnswer) => void,
  later: (task: () => void) => void,
): CheckDesk {
  let documents: BoardDocuments = emptyDocuments();
  let read = makeReader(documents);
  const checker = makeChecker();
  let told: ReadonlyMap<string, Finding> = new Map();
  let tells = false;
  let isWaiting = false;

  function checkSoon(): void {
    if (!tells || isWaiting) return;
    isWaiting = true;
    later(() => {
      isWaiting = false;
      tell(checker(read()));
    });
  }
  function tell(findings: readonly Finding[]): void {
    const changed = findings.filter((finding) => told.get(finding.id) !== finding);
    told = new Map(findings.map((finding) => [finding.id, finding]));
    answer({ kind: "findings", order: [...told.keys()], changed });
  }
  return {
    ask(question) {
      switch (question.kind) {
        case "start":
          documents = emptyDocuments();
          for (const name of documentNames) {
            Y.applyUpdate(documents[name], question.documents[name]);
          }
          read = makeReader(documents);
          ({ tells } = question);
          checkSoon();
          break;
        case "update":
          Y.applyUpdate(documents[question.document], question.update);
          checkSoon();
          break;
        case "ways": {
          const board = read();
          const finding = checker(board).find(({ id }) => id === question.finding);
          const ways = finding === undefined ? [] : waysOut(board, finding, { checker });
          answer({ kind: "ways", question: question.question, ways });
          break;
        }
      }
    },
  };
}
