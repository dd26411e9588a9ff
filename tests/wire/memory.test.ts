/**
 * When the last page has left, the server holds no room and no socket, and no more objects than
 * before they came. `npm run soak` does it 20,000 times, at
 * one server for two hours too.
 */
import { expect, test, vi } from "vitest";
import { runConnects } from "../soak/connects.ts";

// Several processes a test, and a start costs seconds on a busy machine.
vi.setConfig({ testTimeout: 180_000, hookTimeout: 180_000 });

const connects = 150;

test(`${connects} pages that came, wrote and left leave nothing behind`, async () => {
  expect((await runConnects(connects)).faults).toEqual([]);
});

test("a server that forgets nothing that it loads is caught", async () => {
  expect((await runConnects(connects, { leaks: true })).faults).not.toEqual([]);
});
