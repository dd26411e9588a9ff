/** Questions to the desk that fits and answers back, over a line as a worker would be. */
import type { SlotId } from "@halflap/board/board";
import { fillDocuments } from "@halflap/board/copy";
import { demoDraft } from "@halflap/board/demo";
import { emptyDocuments } from "@halflap/board/documents";
import { clearGrip } from "@halflap/board/edits/lane";
import { makeReader } from "@halflap/board/read";
import type { FitRequest } from "@halflap/fitter/answer";
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { feedFrom } from "../session/board-feed.ts";
import { type Fitter, makeFitDesk } from "./fit-desk.ts";
import type { FitQuestion, FitReply } from "./fit-messages.ts";
import { type Fitting, openFitting } from "./fitting.ts";
import { anAnswer } from "./test-support/answers.ts";

const request: FitRequest = {
  lanes: ["lower"],
  leaning: "plain",
  answers: 1,
  bars: undefined,
};

/** Says how many grips the upper lane has, in the id of its one answer. */
const fitter: Fitter = {
  fit(board, _, onProgress) {
    onProgress({ done: 0.5, words: "half" });
    const answer = anAnswer({ id: `upper ${board.lanes.upper.grips.size}` });
    return { kind: "answers", answers: [answer], present: undefined, skipped: [] };
  },
  why(board, _, { id }, at) {
    const grip = [...board.lanes.upper.grips.values()][0];
    if (grip === undefined) throw new Error("no grip to go by");
    return [{ grip, more: at.most, causes: [], bars: [], words: id }];
  },
  mend: (_, { id }) => ({ changes: [{ lane: "lower", words: id, edits: [] }], left: 0 }),
};

let documents = emptyDocuments();
let lines: { closed: boolean; broke: (words: string) => void; held: boolean }[];
let fitting: Fitting;
let isHeld: boolean;

beforeEach(() => {
  documents = emptyDocuments();
  fillDocuments(documents, demoDraft());
  lines = [];
  isHeld = false;
  fitting = openFitting(
    (send) => feedFrom(documents, send),
    (reply, broke) => {
      const line = { closed: false, broke, held: isHeld };
      lines.push(line);
      const told = (each: FitReply) => {
        if (!line.closed) reply(structuredClone(each));
      };
      const desk = makeFitDesk(told, fitter);
      const ask = (question: FitQuestion) => {
        const copy = structuredClone(question);
        if (!line.held) queueMicrotask(() => desk.ask(copy));
      };
      return { ask, close: () => Object.assign(line, { closed: true }) };
    },
  );
});
afterEach(() => {
  fitting.close();
  vi.unstubAllGlobals();
  vi.restoreAllMocks();
});

function firstSlot(): SlotId {
  const [slot] = makeReader(documents)().lanes.upper.grips.keys();
  if (slot === undefined) throw new Error("no grip is left");
  return slot;
}

async function fitted(): Promise<string | undefined> {
  const end = await fitting.fit(request, () => {});
  return end.kind === "done" && end.result.kind === "answers"
    ? end.result.answers[0]?.id
    : undefined;
}

test("no line is made before the first question", async () => {
  expect(lines).toHaveLength(0);
  await fitted();
  expect(lines).toHaveLength(1);
});

test("the answer is about the board as it is when asked, progress comes first", async () => {
  const before = await fitted();
  clearGrip(documents["lane-upper"], firstSlot());
  const progress: number[] = [];
  await fitting.fit(request, ({ done }) => progress.push(done));
  expect(progress).toEqual([0.5]);
  expect(await fitted()).not.toBe(before);
});

test("questions about an answer are about the board it was found for", async () => {
  const id = (await fitted()) ?? "";
  clearGrip(documents["lane-upper"], firstSlot());
  const at = { lane: "lower", slot: firstSlot(), most: 3 } as const;
  const [next, mending] = [await fitting.why(id, at), await fitting.mend(id)];
  expect(next).toMatchObject({ kind: "found", value: [{ more: 3, words: id }] });
  expect(mending).toMatchObject({ kind: "found", value: { changes: [{ words: id }] } });
});

test("an answer of another fit is not known any more", async () => {
  const id = (await fitted()) ?? "";
  fitting.cancel();
  await fitted();
  clearGrip(documents["lane-upper"], firstSlot());
  await fitted();
  expect(await fitting.mend(id)).toEqual({ kind: "gone" });
});

test("cancelling ends the line and tells whoever waits; another is made when asked", async () => {
  isHeld = true;
  const waiting = fitting.fit(request, () => {});
  fitting.cancel();
  expect(await waiting).toEqual({ kind: "cancelled" });
  expect(lines[0]?.closed).toBe(true);
  isHeld = false;
  expect(await fitted()).toMatch(/^upper/);
  expect(lines).toHaveLength(2);
});

test("a fitter that throws, and a line that breaks, are told in words", async () => {
  const broken: Fitter = {
    ...fitter,
    fit: () => {
      throw new Error("a wedge");
    },
  };
  const replies: FitReply[] = [];
  makeFitDesk((reply) => replies.push(reply), broken).ask({ kind: "fit", question: 7, request });
  expect(replies).toEqual([{ kind: "failed", question: 7, words: "Error: a wedge" }]);
  isHeld = true;
  const waiting = fitting.fit(request, () => {});
  lines.at(-1)?.broke("no such file");
  expect(await waiting).toEqual({ kind: "failed", words: "no such file" });
});

test("a question about an answer that breaks is told as broken, not as gone", async () => {
  const id = (await fitted()) ?? "";
  const throws = () => {
    throw new Error("a wedge");
  };
  vi.spyOn(fitter, "why").mockImplementation(throws);
  vi.spyOn(fitter, "mend").mockImplementation(throws);
  const failed = { kind: "failed", words: "Error: a wedge" };
  expect(await fitting.why(id, { lane: "lower", slot: firstSlot(), most: 3 })).toEqual(failed);
  expect(await fitting.mend(id)).toEqual(failed);
});

test.each<[string, () => Event, string]>([
  ["a script that could not be fetched", () => new Event("error"), "could not be fetched"],
  [
    "a script that threw",
    () => Object.assign(new Event("error"), { message: "a wedge" }),
    "a wedge",
  ],
])("a worker that breaks says why: %s", async (_, event, words) => {
  class BrokenWorker extends EventTarget {
    postMessage = () => queueMicrotask(() => this.dispatchEvent(event()));
    terminate() {}
  }
  vi.stubGlobal("Worker", BrokenWorker);
  const end = await openFitting(() => () => {}).fit(request, () => {});
  expect(end).toEqual({ kind: "failed", words: expect.stringContaining(words) });
});
