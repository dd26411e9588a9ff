/** Recording a take, step by step: the microphone, counting in, playing along, hearing it again. */
import type { BarId } from "@halflap/board/board";
import { takeBarsMax, takeMsMax } from "@halflap/board/limits";
import type { TakeHead } from "@halflap/board/take";
import { createSignal, onCleanup } from "solid-js";
import type { Desk } from "../../board/desk.ts";
import type { Sounding } from "../companions.ts";
import type { Listening } from "../create-listening.ts";
import type { Plan } from "../play-clock.ts";
import {
  closeMicrophone,
  type Microphone,
  type MicrophoneTrouble,
  openMicrophone,
} from "./microphone.ts";
import { type Recorder, type Recording, startRecorder } from "./recorder.ts";
import { tempoOf } from "./take-places.ts";

/** What was recorded, before it is kept or thrown away. */
export type Draft = {
  readonly head: TakeHead;
  readonly blob: Blob;
  readonly sound: AudioBuffer;
  readonly hasClipped: boolean;
};

export type RecordState =
  | { readonly kind: "idle" }
  /** The browser asks the person, or gets ready. */
  | { readonly kind: "asking" }
  | { readonly kind: "refused"; readonly why: MicrophoneTrouble | "silent" }
  /** `seconds` since the first beat; below 0 it is counted in. */
  | { readonly kind: "running"; readonly seconds: number }
  | { readonly kind: "finishing" }
  /** It was stopped before anything was played. */
  | { readonly kind: "too-short" }
  | { readonly kind: "review"; readonly draft: Draft };

/** How loud it comes in just now, and whether it was too loud since it began. */
export type InputLevel = { readonly level: number; readonly hasClipped: boolean };

/** A take that is shorter is a slip of the finger. */
const shortestSeconds = 0.5;

type Begun = {
  readonly plan: Plan;
  /** The context's time at which the player gives the first beat. */
  readonly beat: number;
  readonly tempo: number;
  /** Seconds until what is given is heard. */
  readonly latency: number;
  readonly secondsPerTick: number;
};

/** One recording at a time. */
export function createRecording(desk: Desk, listening: Listening) {
  const [state, setState] = createSignal<RecordState>({ kind: "idle" });
  const [input, setInput] = createSignal<InputLevel>({ level: 0, hasClipped: false });
  let release: (() => void) | undefined;
  const rest = (next: RecordState) => {
    release?.();
    release = undefined;
    setState(next);
  };

  async function start(ends: { readonly from: BarId; readonly to: BarId }): Promise<void> {
    rest({ kind: "asking" });
    // Within the press, as browsers ask for; the microphone may take its time.
    const sound = listening.prepare();
    const microphone = await openMicrophone();
    if (typeof microphone === "string") return rest({ kind: "refused", why: microphone });
    release = () => closeMicrophone(microphone);
    await sound;
    const context = listening.audio();
    // Given up meanwhile: the microphone is given back.
    if (state().kind !== "asking") return rest(state());
    if (context === undefined || listening.state().kind === "impossible") {
      return rest({ kind: "refused", why: "silent" });
    }
    const recorder = startedOrNot(() => startRecorder(context, microphone));
    if (recorder === undefined) return rest({ kind: "refused", why: "failed" });
    record(recorder, microphone);
    const bars = { kind: "once", ...ends } as const;
    const whole = { lane: "upper", edits: [], slot: undefined, heard: "all" } as const;
    void listening.accompany({ bars, ...whole, countsIn: true });
  }

  /** From the count-in to the end of what is played, whatever ends it. */
  function record(recorder: Recorder, microphone: Microphone): void {
    const leave = goAlong(desk, listening, recorder, {
      onInput: setInput,
      onSeconds: (seconds) => setState({ kind: "running", seconds }),
      onSilent: () => {
        const isStopped = listening.state().kind === "silent";
        rest(isStopped ? { kind: "too-short" } : { kind: "refused", why: "silent" });
      },
      onEnd: (begun) => {
        release = undefined;
        setState({ kind: "finishing" });
        const ended = finished(recorder, begun, microphone.latency);
        closeMicrophone(microphone);
        void ended.then(setState);
      },
    });
    release = () => {
      leave();
      recorder.cancel();
      closeMicrophone(microphone);
    };
  }

  onCleanup(() => rest({ kind: "idle" }));
  return { state, input, start, forget: () => rest({ kind: "idle" }) };
}

type Along = {
  readonly onInput: (input: InputLevel) => void;
  /** Whole seconds since the first beat is heard. */
  readonly onSeconds: (seconds: number) => void;
  /** The band can't play, or was stopped before it began. */
  readonly onSilent: () => void;
  readonly onEnd: (begun: Begun) => void;
};

/** Marks the recording when the count-in begins, and tells how it goes; answers how to leave. */
function goAlong(desk: Desk, listening: Listening, recorder: Recorder, along: Along): () => void {
  let begun: Begun | undefined;
  const leave = listening.follow((now) => {
    if (now.plan === undefined) {
      if (begun !== undefined) {
        leave();
        along.onEnd(begun);
      } else if (listening.state().kind !== "loading") along.onSilent();
      return;
    }
    if (begun === undefined) {
      begun = beginningOf(now, now.plan, desk);
      recorder.mark();
    }
    const seconds = now.context.currentTime - begun.beat - begun.latency;
    along.onInput({ level: recorder.level(), hasClipped: recorder.hasClipped() });
    along.onSeconds(Math.floor(seconds));
    if (seconds * 1000 >= takeMsMax) listening.stop();
  });
  return leave;
}

/** What came of it, to be heard again. */
async function finished(
  recorder: Recorder,
  begun: Begun,
  inputLatency: number,
): Promise<RecordState> {
  try {
    const draft = draftOf(await recorder.stop(), begun, inputLatency);
    return draft === undefined ? { kind: "too-short" } : { kind: "review", draft };
  } catch {
    return { kind: "refused", why: "failed" };
  }
}

function beginningOf(now: Sounding, plan: Plan, desk: Desk): Begun {
  const { context, origin } = now;
  const { meter } = desk.session.board;
  return {
    plan,
    beat: origin + plan.anchor.sample / context.sampleRate,
    tempo: tempoOf(plan, meter, context.sampleRate),
    latency: context.outputLatency || context.baseLatency || 0,
    secondsPerTick: plan.anchor.samplesPerTick / context.sampleRate,
  };
}

/** Whoever plays to the band is late by its way out and the microphone's way in. */
function draftOf(
  recording: Recording,
  { plan, beat, tempo, latency, secondsPerTick }: Begun,
  inputLatency: number,
): Draft | undefined {
  const { blob, sound, hasClipped } = recording;
  const offset = Math.max(0, recording.fileSeconds(beat + latency + inputLatency));
  const seconds = Math.min(takeMsMax / 1000, sound.duration - offset);
  if (seconds < shortestSeconds) return undefined;
  const bars = barsBegun(plan, seconds / secondsPerTick);
  const head = { name: "", bars, offsetMs: offset * 1000, lengthMs: seconds * 1000, tempo };
  return { head, blob, sound, hasClipped };
}

/** The bars of a plan that begin before so many ticks have passed. */
function barsBegun({ bars, stretch }: Plan, ticks: number): TakeHead["bars"] {
  const begun: TakeHead["bars"][number][] = [];
  let passed = 0;
  for (const { bar, length } of bars.slice(stretch.first, stretch.last + 1)) {
    if (passed >= ticks || begun.length === takeBarsMax) break;
    begun.push({ bar, length });
    passed += length;
  }
  return begun;
}

function startedOrNot<T>(start: () => T): T | undefined {
  try {
    return start();
  } catch {
    return undefined;
  }
}
