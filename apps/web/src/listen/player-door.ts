/** The way to the player: its audio is made and woken within a press, the rest loaded once. */
import type { Listener, SoundPlayer } from "./sound-player.ts";

/** Why there is no sound to be had. */
export type Hindrance = "insecure" | "missing" | "failed";

type Visitor = Omit<Listener, "onBroken"> & {
  /** The audio runs, or is held back. */
  onAudio(): void;
  /** It is there for the first time. */
  onOpened(player: SoundPlayer): void;
  onHindrance(why: Hindrance): void;
};

/** Closed until somebody asks. */
export function makePlayerDoor(visitor: Visitor) {
  let audio: AudioContext | undefined;
  let opening: Promise<SoundPlayer> | undefined;

  async function open(context: AudioContext): Promise<SoundPlayer> {
    const { openPlayer } = await import("./sound-player.ts");
    const player = await openPlayer(context, { ...visitor, onBroken: giveUp });
    visitor.onOpened(player);
    return player;
  }
  /** The next press opens it anew. */
  function giveUp(): void {
    opening = undefined;
    void audio?.suspend();
    visitor.onHindrance("failed");
  }
  /** undefined, and said why, where it can't be had. */
  async function ready(): Promise<SoundPlayer | undefined> {
    const why = whyImpossible();
    if (why !== undefined) {
      visitor.onHindrance(why);
      return undefined;
    }
    try {
      // Made and woken within the press, as browsers ask for.
      audio ??= makeAudio(visitor.onAudio);
      void audio.resume();
      opening ??= open(audio);
      return await opening;
    } catch {
      giveUp();
      return undefined;
    }
  }
  return {
    ready,
    audio: () => audio,
    /** Tells whoever is there; a player that could not be opened has said so. */
    tell: (what: (player: SoundPlayer) => void) => void opening?.then(what, () => {}),
  };
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
