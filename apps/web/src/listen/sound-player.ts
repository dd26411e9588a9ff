/** The page's hold on the sound: the player in the audio, the conductor beside the page. */
import type { PartSetting } from "@halflap/sound/mix";
import type { Part } from "@halflap/sound/play-event";
import type { Numbered, Position, Report, Request } from "./player-messages.ts";
import playerAddress from "./player-worklet.ts?worker&url";
import { wayOut } from "./way-out.ts";

export type SoundPlayer = {
  ask(request: Request): void;
  /** Something will be asked for in a moment: the audio does not rest until then. */
  stayAwake(): void;
  mix(part: Part, setting: PartSetting): void;
  close(): void;
};

export type Listener = {
  readonly onReport: (report: Report) => void;
  /** The sample that leaves the loudspeaker now, and where the player is. */
  readonly onSample: (sample: number, position: Position) => void;
  /** It fell over, and nothing more comes from it. */
  readonly onBroken: () => void;
};

/** Seconds after a stop until the audio rests: the fade is over by then. */
const restSeconds = 0.1;

/** What is asked for makes sound. */
const starts: ReadonlySet<Request["kind"]> = new Set(["play", "try", "meet"]);
/** What was reported of what sounded before is no news after these; a meeting goes on over many. */
const replaces: ReadonlySet<Request["kind"]> = new Set(["play", "try", "stop"]);

/** Loads the player into a context that the person's press has made. */
export async function openPlayer(context: AudioContext, listener: Listener): Promise<SoundPlayer> {
  await context.audioWorklet.addModule(playerAddress);
  const node = new AudioWorkletNode(context, "halflap-player", {
    numberOfInputs: 0,
    outputChannelCount: [2],
  });
  node.connect(wayOut(context));
  const worker = new Worker(new URL("./conductor-worker.ts", import.meta.url), { type: "module" });
  const line = new MessageChannel();
  node.port.postMessage("line", [line.port1]);
  worker.postMessage({ sampleRate: context.sampleRate }, [line.port2]);

  const leave = () => {
    worker.terminate();
    node.port.onmessage = null;
    node.disconnect();
  };
  const onBroken = () => {
    leave();
    listener.onBroken();
  };
  worker.onerror = onBroken;
  node.onprocessorerror = onBroken;

  let isWanted = false;
  let silentSince: number | undefined;
  let newest = 0;
  worker.onmessage = ({ data: { what, number } }: MessageEvent<Numbered<Report>>) => {
    if (number < newest) return;
    if (what.kind === "stopped" && what.why !== "asked") isWanted = false;
    listener.onReport(what);
  };
  node.port.onmessage = ({ data }: MessageEvent<Position>) => {
    const { sample } = data;
    const latency = context.outputLatency || context.baseLatency || 0;
    listener.onSample(sample - latency * context.sampleRate, data);
    if (isWanted) silentSince = undefined;
    else silentSince ??= sample;
    const rests =
      silentSince !== undefined && sample - silentSince > restSeconds * context.sampleRate;
    if (rests) void context.suspend();
  };
  return {
    ask: (request) => {
      if (starts.has(request.kind)) isWanted = true;
      if (request.kind === "stop") isWanted = false;
      if (replaces.has(request.kind)) newest += 1;
      worker.postMessage({ what: request, number: newest } satisfies Numbered<Request>);
    },
    stayAwake: () => {
      isWanted = true;
      newest += 1;
    },
    mix: (part, setting) => node.port.postMessage({ kind: "mix", part, setting }),
    close: () => {
      leave();
      void context.close();
    },
  };
}
