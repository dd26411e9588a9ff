/** A recording that breaks off says so. */
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { startRecorder } from "./recorder.ts";

class FakeRecorder extends EventTarget {
  static isTypeSupported = () => false;
  state = "inactive";
  onerror: (() => void) | undefined;
  constructor() {
    super();
    recorder = this;
  }
  start(): void {
    this.state = "recording";
  }
}

class FakeNode {
  readonly fftSize = 2048;
  readonly stream = {};
  connect<T>(to: T): T {
    return to;
  }
}

let recorder: FakeRecorder;

beforeEach(() => {
  vi.stubGlobal("MediaRecorder", FakeRecorder);
  const nodes = ["MediaStreamAudioSource", "Analyser", "Gain", "MediaStreamAudioDestination"];
  for (const name of nodes) vi.stubGlobal(`${name}Node`, FakeNode);
});
afterEach(() => void vi.unstubAllGlobals());

test.each(["a microphone that is unplugged", "a recorder that fails"])("%s is noticed", (what) => {
  const track = new EventTarget();
  const stream = { getAudioTracks: () => [track] } as unknown as MediaStream;
  const started = startRecorder({ currentTime: 0 } as AudioContext, { stream, latency: 0 });
  expect(started.isBroken()).toBe(false);
  if (what === "a recorder that fails") recorder.onerror?.();
  else track.dispatchEvent(new Event("ended"));
  expect(started.isBroken()).toBe(true);
});
