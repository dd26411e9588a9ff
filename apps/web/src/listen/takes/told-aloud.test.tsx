/**
 * What is read aloud while a take is recorded or sent changes with its kind, not with every second.
 *
 * @vitest-environment jsdom
 */
import { cleanup, render } from "@solidjs/testing-library";
import { createSignal, type JSX } from "solid-js";
import { afterEach, expect, test, vi } from "vitest";
import type { RecordState } from "./create-recording.ts";
import type { Takes } from "./create-takes.ts";
import type { SendState } from "./create-unsent.ts";
import { RecordPart } from "./RecordPart.tsx";
import { UnsentEntry } from "./UnsentEntry.tsx";

vi.mock("../create-listening.ts", () => ({ useListening: () => ({}) }));

afterEach(cleanup);

/** The line with its live region, and how often that region was written anew since. */
function show(part: () => JSX.Element) {
  const status = render(part).getByRole("status");
  const watch = new MutationObserver(() => {});
  watch.observe(status, { childList: true, characterData: true, subtree: true });
  return {
    seen: () => status.parentElement?.textContent,
    aloud: () => status.textContent,
    changes: () => watch.takeRecords().length,
  };
}

test("while somebody records the seconds are seen, and not read aloud", () => {
  const [state, setState] = createSignal<RecordState>({ kind: "running", seconds: 1 });
  const recording = { state, input: () => ({ level: 0, hasClipped: false }) };
  const takes = { recording } as unknown as Takes;
  const line = show(() => <RecordPart takes={takes} />);
  expect([line.seen(), line.aloud()]).toEqual(["Recording: 1 s", "Recording"]);
  setState({ kind: "running", seconds: 2 });
  expect([line.seen(), line.changes()]).toEqual(["Recording: 2 s", 0]);
  setState({ kind: "running", seconds: -1 });
  expect([line.seen(), line.aloud()]).toEqual(["Counting in …", "Counting in …"]);
});

test("while a take is sent the per cent are seen, and not read aloud", () => {
  const [state, setState] = createSignal<SendState>({ kind: "sending", done: 0.1 });
  const unsent = () => [{ key: "k", head: { name: "Riff" }, state: state(), isKept: true }];
  const takes = { sending: { unsent } } as unknown as Takes;
  const line = show(() => <UnsentEntry id="k" takes={takes} />);
  expect([line.seen(), line.aloud()]).toEqual(["Being sent: 10 %", "Being sent"]);
  setState({ kind: "sending", done: 0.6 });
  expect([line.seen(), line.changes()]).toEqual(["Being sent: 60 %", 0]);
  setState({ kind: "refused", words: "The board is full of takes." });
  expect([line.seen(), line.aloud()]).toEqual(Array(2).fill("The board is full of takes."));
});

test("a take behind another says that it waits for that one while it is sent", () => {
  const [first, setFirst] = createSignal<SendState>({ kind: "sending", done: 0.1 });
  const waits = { key: "second", head: { name: "Fill" }, isKept: true } as const;
  const unsent = () => [
    { key: "first", head: { name: "Riff" }, state: first(), isKept: true },
    { ...waits, state: { kind: "waiting" } as SendState },
  ];
  const takes = { sending: { unsent } } as unknown as Takes;
  const line = show(() => <UnsentEntry id="second" takes={takes} />);
  expect(line.aloud()).toBe("Waits for the take that is being sent, and goes after it.");
  setFirst({ kind: "waiting" });
  expect(line.aloud()).toBe("Kept in this browser until the server is in reach.");
});
