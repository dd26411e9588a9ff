/** What comes of a player that falls over, and of its late words. */
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import type { Numbered, Position, Report, Request } from "./player-messages.ts";
import { openPlayer } from "./sound-player.ts";

vi.mock("./player-worklet.ts?worker&url", () => ({ default: "player" }));
vi.mock("./way-out.ts", () => ({ wayOut: () => "out" }));

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
  connect(to: unknown): void {
    this.isConnected = to === "out";
  }
  disconnect(): void {
    this.isConnected = false;
  }
}

class FakeWorker {
  readonly sent: Numbered<Request>[] = [];
  onerror: (() => void) | null = null;
  onmessage: ((event: { data: Numbered<Report> }) => void) | null = null;
  isEnded = false;
  constructor() {
    worker = this;
  }
  postMessage(message: Numbered<Request>): void {
    this.sent.push(message);
  }
  terminate(): void {
    this.isEnded = true;
  }
}

beforeEach(() => {
  vi.stubGlobal("AudioWorkletNode", FakeNode);
  vi.stubGlobal("Worker", FakeWorker);
});
afterEach(() => void vi.unstubAllGlobals());

const meeting = { tick: 0, sample: 0, counted: 0, tempoFactor: 1, loop: undefined };

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
    expect(node.isConnected).toBe(true);
    if (who === "processor") node.onprocessorerror?.();
    else worker.onerror?.();
    tell();
    expect(heard).toEqual(["at 1024", "broken"]);
    expect([node.isConnected, worker.isEnded]).toEqual([false, true]);
  },
);

test("what was reported before the newest request is no news, and all after it is", async () => {
  const { player, heard } = await opened();
  const play = { kind: "play", bar: undefined } as const;
  const report = (what: Report, number: number) => worker.onmessage?.({ data: { what, number } });
  const ended = { kind: "stopped", why: "end" } as const;
  player.ask(play);
  player.ask({ kind: "board", fields: {} });
  player.ask(play);
  const [, first, , second] = worker.sent.map(({ number }) => number);
  report(ended, first ?? 0);
  expect(heard).toEqual([]);
  report(ended, second ?? 0);
  expect(heard).toEqual(["stopped"]);
  // Whoever waits to play together hears no end of what was played before.
  player.stayAwake();
  report(ended, second ?? 0);
  expect(heard).toEqual(["stopped"]);
  player.ask({ kind: "meet", meeting: meeting });
  report(ended, worker.sent.at(-1)?.number ?? 0);
  expect(heard).toEqual(["stopped", "stopped"]);
});
