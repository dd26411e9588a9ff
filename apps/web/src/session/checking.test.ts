/** Documents in, findings and ways out back, over the same desk that the worker sits at. */
import type { Board } from "@halflap/board/board";
import { fillDocuments } from "@halflap/board/copy";
import { demoDraft, demoSolution } from "@halflap/board/demo";
import { type BoardDocuments, emptyDocuments } from "@halflap/board/documents";
import { clearGrip, placeGrip } from "@halflap/board/edits/lane";
import { makeReader } from "@halflap/board/read";
import { check } from "@halflap/checker/check";
import type { Finding } from "@halflap/checker/finding";
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { makeCheckDesk } from "./check-desk.ts";
import type { CheckAnswer } from "./check-messages.ts";
import { type Checking, openChecking } from "./checking.ts";

let documents: BoardDocuments;
let told: (readonly Finding[])[];
let sent: CheckAnswer[];
let checking: Checking;

const board = (): Board => makeReader(documents)();
const latest = () => told.at(-1);
const soon = (isSo: () => void) => vi.waitFor(isSo, { timeout: 20_000 });

beforeEach(() => {
  documents = emptyDocuments();
  fillDocuments(documents, demoDraft());
  told = [];
  sent = [];
  checking = openChecking(
    (findings) => told.push(findings),
    (answer) => {
      const cloned = (each: CheckAnswer) => {
        // As a worker would send it.
        const copy = structuredClone(each);
        sent.push(copy);
        answer(copy);
      };
      const desk = makeCheckDesk(cloned, (task) => setTimeout(task));
      return { ask: (question) => desk.ask(structuredClone(question)), close: () => {} };
    },
  );
  checking.follow(documents);
});

afterEach(() => checking.close());

test("the findings are those of the check, after every edit", async () => {
  await soon(() => expect(latest()).toEqual(check(board())));
  const [slot] = board().lanes.upper.grips.keys();
  if (slot === undefined) throw new Error("the draft has grips");
  clearGrip(documents["lane-upper"], slot);
  await soon(() => expect(latest()).toEqual(check(board())));
});

test("only what changed is sent, and what stays the same is the same object", async () => {
  await soon(() => expect(told).toHaveLength(1));
  const before = new Map(latest()?.map((finding) => [finding.id, finding]));
  const { grips } = board().lanes.upper;
  const slot = [...grips.keys()].at(-1);
  const [grip] = grips.values();
  if (slot === undefined || grip === undefined) throw new Error("the draft has grips");
  placeGrip(documents["lane-upper"], { slot, grip });
  await soon(() => expect(told).toHaveLength(2));
  const answer = sent.at(-1);
  if (answer?.kind !== "findings") throw new Error("findings were sent");
  expect(answer.changed.length).toBeLessThan(answer.order.length / 2);
  const kept = latest()?.filter((finding) => before.get(finding.id) === finding) ?? [];
  expect(kept.length).toBe(answer.order.length - answer.changed.length);
});

test("updates that come together are checked once", async () => {
  await soon(() => expect(told).toHaveLength(1));
  for (const slot of [...board().lanes.upper.grips.keys()].slice(0, 20)) {
    clearGrip(documents["lane-upper"], slot);
  }
  await soon(() => expect(latest()).toEqual(check(board())));
  expect(told).toHaveLength(2);
});

test("ways out of a finding come back; of one that is gone, none", async () => {
  await soon(() => expect(told).toHaveLength(1));
  const stop = latest()?.find(({ severity }) => severity === "stop");
  if (stop === undefined) throw new Error("the draft has a stop");
  expect((await checking.waysOut(stop.id)).length).toBeGreaterThan(0);
  expect(await checking.waysOut("R99:upper:gone")).toEqual([]);
});

test("other documents take the place of the first", async () => {
  await soon(() => expect(told).toHaveLength(1));
  const first = documents;
  documents = emptyDocuments();
  fillDocuments(documents, demoSolution());
  checking.follow(documents);
  await soon(() => expect(latest()).toEqual(check(board())));
  const count = told.length;
  const [slot] = makeReader(first)().lanes.upper.grips.keys();
  if (slot !== undefined) clearGrip(first["lane-upper"], slot);
  await checking.waysOut("none");
  expect(told).toHaveLength(count);
});

test("closing answers whoever still waits", async () => {
  const asked = checking.waysOut("R99:upper:gone");
  checking.close();
  expect(await asked).toEqual([]);
});

test("where the worker fails, first or later, the page checks and seeks by itself", async () => {
  checking.close();
  told = [];
  const failing: (() => void)[] = [];
  checking = openChecking(
    (findings) => told.push(findings),
    (_answer, onFailed) => {
      failing.push(onFailed);
      return { ask: () => {}, close: () => {} };
    },
  );
  checking.follow(documents);
  failing[0]?.();
  await soon(() => expect(latest()).toEqual(check(board())));
  const [slot] = board().lanes.upper.grips.keys();
  if (slot === undefined) throw new Error("the draft has grips");
  clearGrip(documents["lane-upper"], slot);
  await soon(() => expect(latest()).toEqual(check(board())));
  const stop = latest()?.find(({ severity }) => severity === "stop");
  if (stop === undefined) throw new Error("the draft has a stop");
  const asked = checking.waysOut(stop.id);
  failing[1]?.();
  expect((await asked).length).toBeGreaterThan(0);
});
