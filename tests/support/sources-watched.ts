/** What the audio of a page gives out and takes in, watched and wired from outside. */
import type { Page } from "@playwright/test";

export type Start = { readonly when: number; readonly offset: number; readonly length: number };
type Seen = {
  readonly starts: Start[];
  /** When bar 2 is given by the player for the first time, in the audio's own time. */
  bar2(): number | undefined;
  level(): number;
};

/** Writes down what sounds from a recording from now on, and how the player's bars lie. */
export async function watchSources(page: Page): Promise<void> {
  await page.evaluate(() => {
    type Plan = {
      readonly bars: readonly { readonly start: number }[];
      readonly anchor: { sample: number; tick: number; samplesPerTick: number };
    };
    const starts: Start[] = [];
    let ear: AnalyserNode | undefined;
    let plan: Plan | undefined;
    let origin: number | undefined;
    let rate = 1;
    const start = AudioBufferSourceNode.prototype.start;
    AudioBufferSourceNode.prototype.start = function (when = 0, offset = 0, length = 0) {
      ear ??= new AnalyserNode(this.context);
      this.connect(ear);
      starts.push({ when, offset, length });
      start.call(this, when, offset, length);
    };
    class WatchedWorker extends Worker {
      constructor(address: string | URL, options?: WorkerOptions) {
        super(address, options);
        this.addEventListener("message", ({ data }: MessageEvent<{ what?: { plan?: Plan } }>) => {
          plan ??= data.what?.plan;
        });
      }
    }
    class WatchedPlayer extends AudioWorkletNode {
      constructor(context: BaseAudioContext, name: string, options?: AudioWorkletNodeOptions) {
        super(context, name, options);
        rate = context.sampleRate;
        this.port.addEventListener("message", ({ data }) => {
          origin = data.time - data.sample / rate;
        });
      }
    }
    const bar2 = () => {
      const second = plan?.bars[1];
      if (plan === undefined || second === undefined || origin === undefined) return undefined;
      const { sample, tick, samplesPerTick } = plan.anchor;
      return origin + (sample + (second.start - tick) * samplesPerTick) / rate;
    };
    const level = () => {
      const samples = new Float32Array(2048);
      ear?.getFloatTimeDomainData(samples);
      return samples.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
    };
    const seen: Seen = { starts, bar2, level };
    Object.assign(globalThis, { seen, Worker: WatchedWorker, AudioWorkletNode: WatchedPlayer });
  });
}
/** What was written down, as of now. */
export const seen = (page: Page) =>
  page.evaluate(() => {
    const { starts, bar2, level } = (globalThis as unknown as { seen: Seen }).seen;
    return { starts, bar2: bar2(), level: level() };
  });

/** Puts what the page plays in the microphone's place, without a way out or in. */
export async function hearsItself(page: Page): Promise<void> {
  await page.evaluate(() => {
    const connect = AudioNode.prototype.connect as (this: AudioNode, to: AudioNode) => AudioNode;
    let loop: MediaStreamAudioDestinationNode | undefined;
    AudioNode.prototype.connect = function (this: AudioNode, to: AudioNode) {
      if (to instanceof AudioDestinationNode && this.context instanceof AudioContext) {
        loop ??= new MediaStreamAudioDestinationNode(this.context);
        connect.call(this, loop);
      }
      return connect.call(this, to);
    } as typeof AudioNode.prototype.connect;
    for (const name of ["outputLatency", "baseLatency"]) {
      Object.defineProperty(AudioContext.prototype, name, { get: () => 0 });
    }
    navigator.mediaDevices.getUserMedia = async () => {
      while (loop === undefined) await new Promise((resolve) => setTimeout(resolve, 10));
      return loop.stream;
    };
  });
}
