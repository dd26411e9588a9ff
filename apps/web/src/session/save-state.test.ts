/** One word for four lines, worst first. */
import { demoDraft } from "@halflap/board/demo";
import { expect, test } from "vitest";
import type { LineState } from "./line.ts";
import { saveState } from "./save-state.ts";

const well: LineState = {
  tried: true,
  connected: true,
  confirmed: true,
  changes: 0,
  storeFull: false,
  unreadable: false,
  keepFailing: false,
  lacksWork: false,
};

test.each<[string, Partial<LineState>, object]>([
  ["saved", {}, { kind: "saved" }],
  ["sending", { changes: 2 }, { kind: "sending", changes: 2 }],
  ["offline", { connected: false, changes: 2 }, { kind: "offline", changes: 2, isKept: true }],
  [
    "offline",
    { connected: false, confirmed: false },
    { kind: "offline", changes: 0, isKept: true },
  ],
  [
    "offline, and what was done in it may be lost",
    { connected: false, changes: 1, keepFailing: true },
    { kind: "offline", changes: 1, isKept: false },
  ],
  ["opening", { tried: false, connected: false }, { kind: "opening" }],
  ["opening", { confirmed: false }, { kind: "opening" }],
  ["store-full", { storeFull: true, changes: 1 }, { kind: "store-full", changes: 1, isKept: true }],
  [
    "unreadable",
    { unreadable: true, connected: false },
    { kind: "unreadable", changes: 0, isKept: true },
  ],
])("one line makes the board %s (%j)", (_name, line, state) => {
  expect(saveState([well, { ...well, ...line }, well, well], undefined)).toEqual(state);
});

test("changes of all lines are counted together", () => {
  const lines = [1, 0, 2].map((changes) => ({ ...well, changes }));
  expect(saveState(lines, undefined)).toEqual({ kind: "sending", changes: 3 });
});

test("a refusal or a closed line is said before anything else", () => {
  const refused = { kind: "refused", words: "no", copy: demoDraft() } as const;
  expect(saveState([{ ...well, connected: false }], refused)).toBe(refused);
});
