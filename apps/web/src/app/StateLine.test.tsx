/**
 * The state line says each state in words, and shows the joint flush only when all is saved.
 *
 * @vitest-environment jsdom
 */
import { demoDraft } from "@halflap/board/demo";
import { cleanup, render } from "@solidjs/testing-library";
import { afterEach, expect, test } from "vitest";
import type { SaveState } from "../session/session.ts";
import { StateLine } from "./StateLine.tsx";

afterEach(cleanup);

test.each<[SaveState, string, string]>([
  [{ kind: "opening" }, "opening", "small"],
  [{ kind: "saved" }, "saved", "none"],
  [{ kind: "sending", changes: 2 }, "sending", "small"],
  [{ kind: "offline", changes: 0, isKept: true }, "offline", "wide"],
  [{ kind: "offline", changes: 1, isKept: true }, "offline, 1 change kept here", "wide"],
  [{ kind: "offline", changes: 3, isKept: true }, "offline, 3 changes kept here", "wide"],
  [{ kind: "offline", changes: 1, isKept: false }, "offline, 1 change in this page only", "wide"],
  [{ kind: "store-full", changes: 2, isKept: true }, "server full, 2 changes kept here", "wide"],
  [{ kind: "unreadable", changes: 0, isKept: true }, "server can’t read it", "wide"],
  [
    { kind: "unreadable", changes: 1, isKept: true },
    "server can’t read it, 1 change kept here",
    "wide",
  ],
  [{ kind: "refused", words: "no", copy: demoDraft() }, "a change was refused", "wide"],
  [{ kind: "closed", words: "no" }, "closed", "wide"],
])("%j", (state, words, gap) => {
  const { container } = render(() => <StateLine state={state} />);
  expect(container.textContent).toBe(words);
  expect(container.querySelector("svg")?.dataset.gap).toBe(gap);
});
