/** Words of takes: recording oneself, keeping it, and hearing what others have recorded. */
import type { CutShort, RecordState } from "../listen/takes/create-recording.ts";
import type { SoundState } from "../listen/takes/create-take-sounds.ts";
import type { SendState } from "../listen/takes/create-unsent.ts";

type Trouble = Extract<RecordState, { kind: "refused" }>["why"];

const onward = "Everything else works as before.";

const troubles: Readonly<Record<Trouble, string>> = {
  denied:
    "The browser was told not to give the microphone here. Allow it beside the page’s address, " +
    `then press Record again. ${onward}`,
  none: `There is no microphone. Plug one in, then press Record again. ${onward}`,
  busy: `Something else holds the microphone. Close that, then press Record again. ${onward}`,
  insecure:
    "Browsers give the microphone only at an https address, or on the computer that runs the " +
    `board. ${onward}`,
  missing: `This browser can’t record. ${onward}`,
  silent: `The band can’t play here just now, so there is nothing to record over. ${onward}`,
  failed: `The recording did not work; press Record to try again. ${onward}`,
};

const cutShort: Readonly<Record<CutShort, string>> = {
  changed: "The tempo or the bars were changed while you played, so your take ends there.",
  broken: "The recording broke off, so your take ends there. Is the microphone still plugged in?",
};

/** How the recording stands, but for the seconds; nothing while there is nothing to say. */
export function recordWords(state: RecordState): string {
  switch (state.kind) {
    case "idle":
      return "";
    case "review":
      return state.draft.cutShort === undefined ? "" : cutShort[state.draft.cutShort];
    case "asking":
      return "The browser may ask whether this page may use the microphone.";
    case "running":
      return state.seconds < 0 ? "Counting in …" : "Recording";
    case "finishing":
      return "One moment …";
    case "too-short":
      return "It was stopped before the first beat, so nothing was kept.";
    case "refused":
      return troubles[state.why];
  }
}

/** What changes every second while it is recorded; follows the words above. */
export function recordedWords(state: RecordState): string {
  return state.kind === "running" && state.seconds >= 0 ? `: ${state.seconds} s` : "";
}

/**
 * Where a take stands that the server does not have yet, but for how much of it is sent;
 * `isBehind` another that is being sent.
 */
export function sendWords(state: SendState, isKept: boolean, isBehind: boolean): string {
  switch (state.kind) {
    case "sending":
      return "Being sent";
    case "waiting":
      return isBehind ? behindWords(isKept) : waitingWords(state.words, isKept);
    case "refused":
      return state.words;
  }
}

const stay = "Keep this page open until it is sent.";

function behindWords(isKept: boolean): string {
  const behind = "Waits for the take that is being sent, and goes after it.";
  return isKept ? behind : `${behind} ${stay}`;
}

function waitingWords(refusal: string | undefined, isKept: boolean): string {
  if (refusal !== undefined) {
    const again = `${refusal} This page tries again by itself.`;
    return isKept ? again : `${again} ${stay}`;
  }
  return isKept
    ? "Kept in this browser until the server is in reach."
    : `Waits for the server. ${stay}`;
}

/** What changes all the time while it is sent; follows the words above. */
export function sentWords(state: SendState): string {
  return state.kind === "sending" ? `: ${Math.round(state.done * 100)} %` : "";
}

/** What keeps a take from being heard; undefined while nothing does. */
export function soundWords(state: SoundState | undefined): string | undefined {
  if (state?.kind === "loading") return "Being fetched …";
  if (state?.kind !== "failed") return undefined;
  return state.why === "away"
    ? "It could not be fetched. Switch it off and on to try again."
    : "This browser can’t read what the other one recorded.";
}

/** Everything else that is said about takes. */
export const takeWords = {
  title: "Takes",
  about:
    "Play along for at most a minute and let the others hear it with the band. Wear headphones, " +
    "or the microphone hears the band too. Start softly: turn up only once you have heard it.",
  none: "Nobody has recorded anything yet.",
  fromBar: "From bar",
  toBar: "to bar",
  tooLong: "That is longer than a minute: it stops after one.",
  record: "Record",
  stop: "Stop",
  input: "How loud it comes in",
  clipped: "Too loud: turn the input down, or sit further away.",
  wasClipped: "It was too loud for the microphone in places.",
  name: "Name of the take",
  usualName: (from: number, to: number) => (from === to ? `Bar ${from}` : `Bars ${from} to ${to}`),
  nudge: "Earlier or later",
  nudged: (ms: number) => {
    if (ms === 0) return "as measured";
    return ms < 0 ? `${-ms} ms earlier` : `${ms} ms later`;
  },
  hearDraft: "Hear it with the band",
  hearStop: "Stop",
  keep: "Keep it",
  throwAway: "Throw away",
  leaveDraft: "Your take is not kept yet. Leave and lose it?",
  sure: "Really throw away?",
  hear: (name: string) => `Hear it with the band: ${name}`,
  level: (name: string) => `How loud: ${name}`,
  percent: (level: number) => `${Math.round(level * 100)} %`,
  where: (from: number | undefined, to: number | undefined) => {
    if (from === undefined || to === undefined) return "its bars are set aside";
    return from === to ? `bar ${from}` : `bars ${from} to ${to}`;
  },
  byLine: (who: string, where: string, when: string) => [who, where, when].join(", "),
  otherTempo: (tempo: number) =>
    `Recorded at ${Math.round(tempo)} a minute, and it plays at that tempo only.`,
  tempoOutOfReach: " The board can’t be played at it: its own tempo has been changed since.",
  turnTempo: (tempo: number) => `Play at ${Math.round(tempo)}`,
  remove: "Remove",
  removeSure: "Really remove?",
  retry: "Try again",
  save: "Save the recording",
} as const;
