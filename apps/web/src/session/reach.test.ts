/**
 * A line on which nothing comes any more is told from one that is only quiet.
 *
 * @vitest-environment jsdom
 */
import { createRoot } from "solid-js";
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { Awareness } from "y-protocols/awareness";
import * as Y from "yjs";
import { type FakeServer, makeFakeServer } from "../../../../tests/fakes/socket.ts";
import { type Line, openLine } from "./line.ts";

/** A dead link shows within this. */
const shownWithinMs = 10_000;

let server: FakeServer;
let line: Line;
/** Whether the network swallows everything, both ways, and says nothing of it. */
let isHalfOpen: boolean;
const onBack: (() => void)[] = [];

function open(): Line {
  const doc = new Y.Doc();
  const Socket = server.Socket;
  class LossySocket extends Socket {
    /** It was opened on the half-open line: all that it hears waits until the network is back. */
    isWaiting = false;

    constructor(address: string | URL) {
      super(address);
      let hear: typeof this.onmessage = null;
      let opened: typeof this.onopen = null;
      Object.defineProperty(this, "onmessage", {
        get: () => (event: MessageEvent) => {
          if (this.isWaiting) onBack.push(() => hear?.call(this, event));
          else if (!isHalfOpen) hear?.call(this, event);
        },
        set: (listener: typeof this.onmessage) => {
          hear = listener;
        },
      });
      Object.defineProperty(this, "onopen", {
        get: () => (event: Event) => {
          this.isWaiting = isHalfOpen;
          if (!isHalfOpen) return opened?.call(this, event);
          onBack.push(() => {
            this.isWaiting = false;
            opened?.call(this, event);
          });
        },
        set: (listener: typeof this.onopen) => {
          opened = listener;
        },
      });
    }
    override dispatchEvent(event: Event): boolean {
      return !isHalfOpen && !this.isWaiting && super.dispatchEvent(event);
    }
    override send(frame: Uint8Array<ArrayBuffer>): void {
      if (!isHalfOpen && !this.isWaiting) super.send(frame);
    }
  }
  return createRoot(() =>
    openLine({
      ...{ address: "ws://test/sync", room: "b1/board", epoch: 1 },
      ...{ doc, awareness: new Awareness(doc), socket: LossySocket as typeof WebSocket },
      onRefused: () => undefined,
      onClosed: () => undefined,
    }),
  );
}

beforeEach(async () => {
  localStorage.clear();
  vi.useFakeTimers();
  isHalfOpen = false;
  server = makeFakeServer();
  line = open();
  await vi.advanceTimersByTimeAsync(1_000);
  expect(line.state().connected).toBe(true);
});

afterEach(() => {
  line.close();
  vi.useRealTimers();
});

/** Whether it showed as gone at any moment of a time. */
async function showsGoneWithin(ms: number): Promise<boolean> {
  for (let left = ms; left > 0; left -= 100) {
    if (!line.state().connected) return true;
    await vi.advanceTimersByTimeAsync(100);
  }
  return !line.state().connected;
}

test.each([0, 700, 1_500, 2_900])(
  "a half-open line shows within ten seconds, %i ms on",
  async (ms) => {
    await vi.advanceTimersByTimeAsync(ms);
    isHalfOpen = true;
    line.doc.getMap("m").set("a", 1);
    expect(await showsGoneWithin(shownWithinMs)).toBe(true);
    expect(line.state().changes).toBe(1);
  },
);

test("a clock that is set back hides no half-open line", async () => {
  isHalfOpen = true;
  vi.setSystemTime(Date.now() - 3_600_000);
  expect(await showsGoneWithin(shownWithinMs)).toBe(true);
});

test("an attempt that hangs is said, given up, and made again", async () => {
  line.close();
  isHalfOpen = true;
  line = open();
  await vi.advanceTimersByTimeAsync(shownWithinMs);
  expect(line.state()).toMatchObject({ tried: true, connected: false });
  onBack.splice(0); // the first attempt never comes to anything
  isHalfOpen = false;
  await vi.advanceTimersByTimeAsync(2 * shownWithinMs);
  expect(line.state().connected).toBe(true);
});

test("an attempt that hangs is made again at once when the network comes back", async () => {
  line.close();
  isHalfOpen = true;
  line = open();
  await vi.advanceTimersByTimeAsync(1_000);
  isHalfOpen = false;
  dispatchEvent(new Event("online"));
  await vi.advanceTimersByTimeAsync(100);
  expect(line.state().connected).toBe(true);
});

test("a line on which nobody does anything stays", async () => {
  expect(await showsGoneWithin(6 * shownWithinMs)).toBe(false);
});

test("what was done on a half-open line arrives once the network is back", async () => {
  isHalfOpen = true;
  line.doc.getMap("m").set("a", 1);
  await showsGoneWithin(shownWithinMs);
  isHalfOpen = false;
  for (const open of onBack.splice(0)) open();
  await vi.advanceTimersByTimeAsync(2 * shownWithinMs);
  expect(server.doc("b1/board").getMap("m").get("a")).toBe(1);
  expect(line.state()).toMatchObject({ connected: true, changes: 0 });
});
