/** The sound of an open board as the page sees it: whether it plays, and where it is. */
import type { Board } from "@halflap/board/board";
import type { Mix } from "@halflap/sound/mix";
import { parts } from "@halflap/sound/play-event";
import {
  type Accessor,
  createEffect,
  createSignal,
  getOwner,
  onCleanup,
  runWithOwner,
} from "solid-js";
import { makeCompanions } from "./companions.ts";
import { type Heard, heardAt, isSameHeard } from "./heard.ts";
import type { Plan } from "./play-clock.ts";
import type { Position, Report, Request, Wishes } from "./player-messages.ts";
import type { SoundPlayer } from "./sound-player.ts";
import type { Meeting } from "./together/meeting.ts";

/** Honest, and only these. */
export type ListenState =
  | { readonly kind: "silent" }
  | { readonly kind: "loading" }
  | { readonly kind: "playing" }
  /** The browser holds the sound back: a call, another tab, a lid that was closed. */
  | { readonly kind: "held" }
  | { readonly kind: "nothing-to-play" }
  | { readonly kind: "impossible"; readonly why: "insecure" | "missing" | "failed" };

/** What is played, and how; each is followed while the sound is there. */
type Source = {
  /** Live in every field. */
  readonly board: Board;
  readonly wishes: Accessor<Wishes>;
  readonly mix: Accessor<Mix>;
};

/** Silent until asked; all of it is loaded at the first press. */
export function createSound(source: Source) {
  const owner = getOwner();
  const [state, setState] = createSignal<ListenState>({ kind: "silent" });
  const [heard, setHeard] = createSignal<Heard | undefined>(undefined, { equals: isSameHeard });
  const [isOver, setOver] = createSignal(false);
  let plan: Plan | undefined;
  /** Told already, but what plays goes on until its first sample. */
  let coming: Plan | undefined;
  let audio: AudioContext | undefined;
  let opening: Promise<SoundPlayer> | undefined;
  const companions = makeCompanions(() => audio);
  const isOn = () => ["loading", "playing", "held"].includes(state().kind);

  function turnTo(next: Plan | undefined): void {
    plan = next;
    coming = undefined;
  }
  function rest(next: ListenState): void {
    turnTo(undefined);
    companions.plan(undefined);
    setState(next);
    setHeard(undefined);
    setOver(false);
  }
  /** As the audio stands, which others than the person can hold back. */
  function sayHowItGoes(): void {
    if (plan === undefined || !isOn()) return;
    setState({ kind: audio?.state === "running" ? "playing" : "held" });
  }
  function onReport(report: Report): void {
    if (report.kind === "plan") {
      if (isOn() && plan === undefined) turnTo(report.plan);
      else if (isOn()) coming = report.plan;
      companions.plan(coming ?? plan);
      sayHowItGoes();
    } else if (report.why !== "asked") {
      rest({ kind: report.why === "nothing" ? "nothing-to-play" : "silent" });
    }
  }
  const onSample = (sample: number, position: Position) => {
    if (coming !== undefined && sample >= coming.anchor.sample) turnTo(coming);
    setHeard(plan && heardAt(plan, sample));
    setOver(plan !== undefined && sample > plan.anchor.sample && heard() === undefined);
    companions.position(position);
  };
  async function open(context: AudioContext): Promise<SoundPlayer> {
    const { openPlayer } = await import("./sound-player.ts");
    const player = await openPlayer(context, { onReport, onSample });
    runWithOwner(owner, () => feed(player, source));
    return player;
  }
  /** undefined, and said why, where it can't be had. */
  async function ready(): Promise<SoundPlayer | undefined> {
    const why = whyImpossible();
    if (why !== undefined) {
      rest({ kind: "impossible", why });
      return undefined;
    }
    try {
      // Made and woken within the press, as browsers ask for.
      audio ??= makeAudio(sayHowItGoes);
      void audio.resume();
      opening ??= open(audio);
      return await opening;
    } catch {
      opening = undefined;
      rest({ kind: "impossible", why: "failed" });
      return undefined;
    }
  }
  async function ask(request: Request): Promise<void> {
    rest({ kind: "loading" });
    const player = await ready();
    if (isOn()) player?.ask(request);
  }
  /** Gets ready to play together, within a press; false, and said why, where that can't be. */
  async function join(): Promise<boolean> {
    rest({ kind: "loading" });
    const player = await ready();
    player?.stayAwake();
    return player !== undefined;
  }
  /** Takes up what is played together, if this still wants to sound. */
  const meet = (meeting: Meeting) =>
    tell((player) => {
      if (isOn()) player.ask({ kind: "meet", meeting });
    });
  function stop(): void {
    rest({ kind: "silent" });
    tell((player) => player.ask({ kind: "stop" }));
  }
  /** A player that could not be opened has said so where it was asked for. */
  const tell = (what: (player: SoundPlayer) => void) => opening?.then(what, () => {});
  onCleanup(() => tell((player) => player.close()));
  /** `prepare` loads all of it, within a press; `wake` goes on where the browser held it back. */
  const { follow } = companions;
  return {
    state,
    isOn,
    heard,
    /** Whether the last bar is over and strings ring on. */
    isOver,
    ask,
    follow,
    audio: () => audio,
    prepare: ready,
    join,
    meet,
    stop,
    wake: () => void audio?.resume(),
  };
}

/** Sends what changes, the board field by field: reading it here follows it. */
function feed(player: SoundPlayer, { board, wishes, mix }: Source): void {
  const names = Object.keys(board) as (keyof Board)[];
  for (const name of names) {
    createEffect(() => player.ask({ kind: "board", fields: { [name]: board[name] } }));
  }
  createEffect(() => player.ask({ kind: "wishes", wishes: wishes() }));
  for (const part of parts) createEffect(() => player.mix(part, mix()[part]));
}

function whyImpossible(): "insecure" | "missing" | undefined {
  if (typeof AudioWorkletNode !== "undefined") return undefined;
  return isSecureContext ? "missing" : "insecure";
}

function makeAudio(onState: () => void): AudioContext {
  const audio = new AudioContext({ latencyHint: "interactive" });
  audio.addEventListener("statechange", onState);
  return audio;
}
