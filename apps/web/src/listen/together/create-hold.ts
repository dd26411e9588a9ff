/** Holds this browser's sound to the shared moment for as long as it is along. */
import { createSignal, onCleanup, untrack } from "solid-js";
import type { Sounding } from "../companions.ts";
import type { Bond } from "./bond.ts";
import { Following, type Word } from "./following.ts";
import { keepNudge, keptNudge, nudgeOf } from "./nudge.ts";

/** How often it is looked at whether all is right. */
const lookEveryMs = 200;

/** Reads the audio's clock whenever the audio says where it is. */
export function createHold({ sound, word, told, agreement, isMeeting, ask }: Bond) {
  const [nudge, setNudge] = createSignal(keptNudge());
  let following: Following | undefined;
  let lookedMs = 0;
  /** What is played here, which the server may have forgotten. */
  let last: Word | undefined;
  /** Bars have changed under this word: it no longer says where the tune stands. */
  let drifted: number | undefined;

  function look({ context, plan, origin }: Sounding): void {
    if (!isMeeting()) return;
    following ??= new Following(context.sampleRate);
    const nowMs = performance.now();
    following.read(momentOf(context, nowMs), origin);
    if (nowMs - lookedMs < lookEveryMs) return;
    lookedMs = nowMs;
    const agreed = agreement();
    const now = word();
    if (agreed === undefined) return;
    if (now !== undefined && now.revision !== drifted) {
      last = now;
      const meeting = following.meeting(now, agreed, nowMs, nudge());
      if (meeting !== undefined) sound.meet(meeting);
    }
    // The server began anew while this browser went on: it is told where.
    if (told()?.kind === "nothing" && last !== undefined && plan !== undefined) {
      if (ask(following.again(plan, last.play, agreed, nowMs))) last = undefined;
    }
  }
  onCleanup(sound.follow((now) => untrack(() => look(now))));

  return {
    nudge,
    setNudge(ms: number): void {
      keepNudge(ms);
      setNudge(nudgeOf(ms));
      following?.forget("sent");
    },
    /** The sound begins, from a rest. */
    begin(): void {
      following?.forget("all");
      last = undefined;
      drifted = undefined;
    },
    /** Leaves the sound alone until the next word. */
    drift(revision: number): void {
      drifted = revision;
    },
  };
}

function momentOf(context: AudioContext, nowMs: number) {
  return {
    nowMs,
    contextTime: context.currentTime,
    latency: context.outputLatency || context.baseLatency || 0,
    output: context.getOutputTimestamp?.(),
  };
}
