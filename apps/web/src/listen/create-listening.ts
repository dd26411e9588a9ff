/** What one person hears of the board: whether it plays, how, who is heard, and where it is. */
import type { BarId, Board } from "@halflap/board/board";
import { type Mix, type PartSetting, usualMix } from "@halflap/sound/mix";
import { type Part, parts } from "@halflap/sound/play-event";
import {
  createContext,
  createEffect,
  createSignal,
  getOwner,
  onCleanup,
  runWithOwner,
  useContext,
} from "solid-js";
import type { Desk } from "../board/desk.ts";
import { type Heard, heardAt, isSameHeard } from "./heard.ts";
import type { Plan } from "./play-clock.ts";
import type { Report, Wishes } from "./player-messages.ts";
import type { SoundPlayer } from "./sound-player.ts";

/** Honest, and only these. */
export type ListenState =
  | { readonly kind: "silent" }
  | { readonly kind: "loading" }
  | { readonly kind: "playing" }
  /** The browser holds the sound back: a call, another tab, a lid that was closed. */
  | { readonly kind: "held" }
  | { readonly kind: "nothing-to-play" }
  | { readonly kind: "impossible"; readonly why: "insecure" | "missing" | "failed" };

export type Listening = ReturnType<typeof createListening>;

/** Silent until asked; the sound is loaded at the first press. */
export function createListening(desk: Desk) {
  const { session } = desk;
  const owner = getOwner();
  const [state, setState] = createSignal<ListenState>({ kind: "silent" });
  const [wishes, setWishes] = createSignal<Wishes>({
    tempoFactor: 1,
    countsIn: true,
    loop: undefined,
  });
  const [mix, setMix] = createSignal<Mix>(usualMix);
  const [plan, setPlan] = createSignal<Plan>();
  const [heard, setHeard] = createSignal<Heard | undefined>(undefined, { equals: isSameHeard });
  let audio: AudioContext | undefined;
  let opening: Promise<SoundPlayer> | undefined;

  const isOn = () => ["loading", "playing", "held"].includes(state().kind);

  function onReport(report: Report): void {
    if (report.kind === "plan") {
      setPlan(report.plan);
      if (isOn()) setState({ kind: audio?.state === "running" ? "playing" : "held" });
      return;
    }
    if (report.why === "asked") return;
    quiet(report.why === "nothing" ? { kind: "nothing-to-play" } : { kind: "silent" });
  }
  function onSample(sample: number): void {
    const now = plan();
    setHeard(now && heardAt(now, sample));
  }
  function quiet(next: ListenState): void {
    setState(next);
    setPlan(undefined);
    setHeard(undefined);
  }
  /** Sends what changes on the board, field by field: reading it here follows it. */
  function feed(player: SoundPlayer): void {
    const names = Object.keys(session.board) as (keyof Board)[];
    for (const name of names) {
      createEffect(() => player.ask({ kind: "board", fields: { [name]: session.board[name] } }));
    }
    createEffect(() => player.ask({ kind: "wishes", wishes: wishes() }));
    for (const part of parts) createEffect(() => player.mix(part, mix()[part]));
  }
  async function open(context: AudioContext): Promise<SoundPlayer> {
    const { openPlayer } = await import("./sound-player.ts");
    const player = await openPlayer(context, { onReport, onSample });
    runWithOwner(owner, () => feed(player));
    return player;
  }
  async function play(bar: BarId | undefined = desk.place()?.bar): Promise<void> {
    const why = whyImpossible();
    if (why !== undefined) return void setState({ kind: "impossible", why });
    setState({ kind: "loading" });
    try {
      // Made and woken within the press, as browsers ask for.
      audio ??= makeAudio(onAudioState);
      void audio.resume();
      opening ??= open(audio);
      const player = await opening;
      if (isOn()) player.ask({ kind: "play", bar });
    } catch {
      opening = undefined;
      quiet({ kind: "impossible", why: "failed" });
    }
  }
  function onAudioState(): void {
    if (plan() === undefined || !isOn()) return;
    setState({ kind: audio?.state === "running" ? "playing" : "held" });
  }
  function stop(): void {
    quiet({ kind: "silent" });
    void opening?.then((player) => player.ask({ kind: "stop" }));
  }
  onCleanup(() => void opening?.then((player) => player.close()));
  return {
    state,
    isOn,
    wishes,
    wish: (change: Partial<Wishes>) => setWishes({ ...wishes(), ...change }),
    mix,
    setMix,
    setPart: (part: Part, change: Partial<PartSetting>) =>
      setMix({ ...mix(), [part]: { ...mix()[part], ...change } }),
    heard,
    play,
    stop,
    /** Lets the audio go on where the browser held it back. */
    wake: () => void audio?.resume(),
    toggle: () => (isOn() ? stop() : void play()),
  };
}

const ListeningContext = createContext<Listening>();

/** Hands the listening to everything inside. */
export const ListeningProvider = ListeningContext.Provider;

/** The listening of the board around a component; using it elsewhere is a bug. */
export function useListening(): Listening {
  const listening = useContext(ListeningContext);
  if (!listening) throw new Error("nothing is listened to around this component");
  return listening;
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
