/** Answers of a fit as tests need them: whole, and with little in them. */
import type { Board, SlotId } from "@halflap/board/board";
import { fillDocuments } from "@halflap/board/copy";
import { demoDraft } from "@halflap/board/demo";
import { emptyDocuments } from "@halflap/board/documents";
import { barId } from "@halflap/board/ids";
import { makeReader } from "@halflap/board/read";
import type { Answer, LanePart } from "@halflap/fitter/answer";
import { decodeGrip } from "@halflap/theory/grip";

/** The demo's first draft, read. */
export function demoBoard(): Board {
  const documents = emptyDocuments();
  fillDocuments(documents, demoDraft());
  return makeReader(documents)();
}

/** A part of one lane from slots and grips as they are written. */
export function aPart(lane: LanePart["lane"], grips: ReadonlyMap<SlotId, string>): LanePart {
  return {
    lane,
    grips: new Map(
      [...grips].map(([slot, text]) => {
        const grip = decodeGrip(text);
        if (grip === undefined) throw new Error(`no grip: ${text}`);
        return [slot, grip];
      }),
    ),
    edits: [...grips].map(([slot, grip]) => ({ kind: "grip", slot, grip })),
    capo: undefined,
    motion: 0,
  };
}

/** An answer that costs nothing, but for what is said. */
export function anAnswer(said: Partial<Answer> = {}): Answer {
  return {
    id: "one",
    parts: [],
    costs: { total: 0, causes: [] },
    bound: 0,
    findings: [],
    hardest: { bar: barId("bar"), cost: 0, words: "" },
    distance: 0,
    ...said,
  };
}
