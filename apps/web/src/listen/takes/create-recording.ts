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

/** Why a take ended before its player or its bars did. */
export type CutShort = "changed" | "broken";

/** What was recorded, before it is kept or thrown away. */
export type Draft = {
  readonly head: TakeHead;
  readonly blob: Blob;
  readonly sound: AudioBuffer;
  readonly hasClipped: boolean;
  readonly cutShort: CutShort | undefined;
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
      onEnd: (begun, cutShort) => {
        release = undefined;
        setState({ kind: "finishing" });
        const ended = finished(recorder, begun, microphone.latency, cutShort);
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
  readonly onEnd: (begun: Begun, cutShort: CutShort | undefined) => void;
};

/** Marks the recording when the count-in begins, and tells how it goes; answers how to leave. */
function goAlong(desk: Desk, listening: Listening, recorder: Recorder, along: Along): () => void {
  let begun: Begun | undefined;
  const leave = listening.follow((now) => {
    const { plan } = now;
    if (plan === undefined) {
      if (begun !== undefined) {
        leave();
        along.onEnd(begun, undefined);
      } else if (listening.state().kind !== "loading") along.onSilent();
      return;
    }
    if (begun === undefined) {
      begun = beginningOf(now, plan, desk);
      recorder.mark();
    }
    const goesOn = goingOn(begun, now, plan, desk);
    if (goesOn === undefined || recorder.isBroken()) {
      leave();
      along.onEnd(begun, goesOn === undefined ? "changed" : "broken");
      listening.stop();
      return;
    }
    begun = goesOn;
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
  cutShort: CutShort | undefined,
): Promise<RecordState> {
  try {
    const made = draftOf(await recorder.stop(), begun, inputLatency);
    if (made !== undefined) return { kind: "review", draft: { ...made, cutShort } };
    return cutShort === "broken" ? { kind: "refused", why: "failed" } : { kind: "too-short" };
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

/**
 * The same in the plan that is played now; undefined where what was played so far no longer lies as
 * it did: others may change the tempo and the bars meanwhile.
 */
function goingOn(begun: Begun, now: Sounding, plan: Plan, desk: Desk): Begun | undefined {
  if (plan === begun.plan) return begun;
  const { context, origin } = now;
  const isAtStart = plan.anchor.tick === plan.bars[plan.stretch.first]?.start;
  if (context.currentTime < begun.beat && isAtStart) return beginningOf(now, plan, desk);
  if (plan.anchor.samplesPerTick !== begun.plan.anchor.samplesPerTick) return undefined;
  const turn = Math.max(context.currentTime, origin + plan.anchor.sample / context.sampleRate);
  const ticks = Math.max(1, (turn - begun.beat) / begun.secondsPerTick);
  const [before, after] = [barsBegun(begun.plan, ticks), barsBegun(plan, ticks)];
  const isSame = before.every(({ bar, length }, index) => {
    const same = after[index];
    return bar === same?.bar && length === same.length;
  });
  return isSame ? { ...begun, plan } : undefined;
}

/** Whoever plays to the band is late by its way out and the microphone's way in. */
function draftOf(
  recording: Recording,
  { plan, beat, tempo, latency, secondsPerTick }: Begun,
  inputLatency: number,
): Omit<Draft, "cutShort"> | undefined {
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
