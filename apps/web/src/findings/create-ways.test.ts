/** Ways out are asked for, awaited with patience, and never mixed up with an older question. */
import type { Finding } from "@halflap/checker/finding";
import type { WayOut } from "@halflap/checker/ways-out";
import { createRoot, createSignal } from "solid-js";
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { createWays, patienceMs, pauseMs } from "./create-ways.ts";

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

const finding = { id: "R02|both|a", severity: "fix" } as Finding;
const way = (id: string) => ({ id }) as WayOut;

/** A session whose answers are given by hand. */
function asked(start: Finding = finding) {
  const answers: ((ways: readonly WayOut[]) => void)[] = [];
  const [findings, setFindings] = createSignal<readonly Finding[]>([start]);
  const waysOut = () => new Promise<readonly WayOut[]>((resolve) => answers.push(resolve));
  const made = createRoot((dispose) => ({
    state: createWays({ findings, waysOut }, () => start),
    dispose,
  }));
  return { ...made, answers, checkedAgain: () => setFindings([start]) };
}

test("an answer that takes long is announced, then shown", async () => {
  const { state, answers, dispose } = asked();
  await vi.advanceTimersByTimeAsync(patienceMs - 1);
  expect(state()).toEqual({ kind: "quiet" });
  await vi.advanceTimersByTimeAsync(1);
  expect(state()).toEqual({ kind: "working" });
  answers[0]?.([way("a")]);
  await vi.advanceTimersByTimeAsync(0);
  expect(state()).toEqual({ kind: "some", ways: [way("a")] });
  dispose();
});

test("an empty answer says that there is none", async () => {
  const { state, answers, dispose } = asked();
  await vi.advanceTimersByTimeAsync(0);
  answers[0]?.([]);
  await vi.advanceTimersByTimeAsync(patienceMs);
  expect(state()).toEqual({ kind: "none" });
  dispose();
});

test("a board that was checked again is asked again; the old answer comes too late", async () => {
  const { state, answers, checkedAgain, dispose } = asked();
  await vi.advanceTimersByTimeAsync(0);
  checkedAgain();
  await vi.advanceTimersByTimeAsync(pauseMs);
  expect(answers).toHaveLength(2);
  answers[1]?.([way("new")]);
  answers[0]?.([way("old")]);
  await vi.advanceTimersByTimeAsync(0);
  expect(state()).toEqual({ kind: "some", ways: [way("new")] });
  dispose();
});

test("a note needs no way out and asks for none", async () => {
  const { state, answers, dispose } = asked({ ...finding, severity: "note" });
  await vi.advanceTimersByTimeAsync(patienceMs * 2);
  expect([state().kind, answers.length]).toEqual(["quiet", 0]);
  dispose();
});
