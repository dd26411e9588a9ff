/** What comes of a player that falls over. */
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import type { Position } from "./player-messages.ts";
import { openPlayer } from "./sound-player.ts";

vi.mock("./player-worklet.ts?worker&url", () => ({ default: "player" }));

/** The node and the worker that were made last. */
let node: FakeNode;
let worker: FakeWorker;

class FakeNode {
  readonly port: { onmessage: ((event: { data: Position }) => void) | null; postMessage(): void } =
    { onmessage: null, postMessage: () => {} };
  onprocessorerror: (() => void) | null = null;
  isConnected = false;
  constructor() {
    node = this;
  }
  connect(): void {
    this.isConnected = true;
  }
  disconnect(): void {
    this.isConnected = false;
  }
}

class FakeWorker {
  onerror: (() => void) | null = null;
  isEnded = false;
  constructor() {
    worker = this;
  }
  postMessage(): void {}
  terminate(): void {
    this.isEnded = true;
  }
}

beforeEach(() => {
  vi.stubGlobal("AudioWorkletNode", FakeNode);
  vi.stubGlobal("Worker", FakeWorker);
});
afterEach(() => void vi.unstubAllGlobals());

async function opened() {
  const context = { sampleRate: 48_000, audioWorklet: { addModule: async () => {} } };
  const heard: string[] = [];
  const player = await openPlayer(context as unknown as AudioContext, {
    onReport: ({ kind }) => heard.push(kind),
    onSample: (sample) => heard.push(`at ${sample}`),
    onBroken: () => heard.push("broken"),
  });
  const position: Position = { sample: 1024, time: 1 };
  return { player, heard, tell: () => node.port.onmessage?.({ data: position }) };
}

test.each(["processor", "conductor"])(
  "a %s that throws is given up, and says no more",
  async (who) => {
    const { heard, tell } = await opened();
    tell();
    if (who === "processor") node.onprocessorerror?.();
    else worker.onerror?.();
    tell();
    expect(heard).toEqual(["at 1024", "broken"]);
    expect([node.isConnected, worker.isEnded]).toEqual([false, true]);
  },
);
