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
import { createHeard } from "./create-heard.ts";
import { type Hindrance, makePlayerDoor } from "./player-door.ts";
import type { Report, Request, Wishes } from "./player-messages.ts";
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
  | { readonly kind: "impossible"; readonly why: Hindrance };

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
  const { heard, isOver, ...score } = createHeard();
  const companions = makeCompanions(() => door.audio());
  const isOn = () => ["loading", "playing", "held"].includes(state().kind);

  function rest(next: ListenState): void {
    score.forget();
    setState(next);
    companions.plan(undefined);
  }
  /** As the audio stands, which others than the person can hold back. */
  function sayHowItGoes(): void {
    if (score.plan() === undefined || !isOn()) return;
    setState({ kind: door.audio()?.state === "running" ? "playing" : "held" });
  }
  function onReport(report: Report): void {
    if (report.kind === "plan") {
      if (isOn()) score.turnTo(report.plan);
      companions.plan(score.plan());
      sayHowItGoes();
    } else if (report.why !== "asked") {
      rest({ kind: report.why === "nothing" ? "nothing-to-play" : "silent" });
    }
  }
  const door = makePlayerDoor({
    onReport,
    onSample(sample, position) {
      score.hear(sample);
      companions.position(position);
    },
    onAudio: sayHowItGoes,
    onOpened: (player) => runWithOwner(owner, () => feed(player, source)),
    onHindrance: (why) => rest({ kind: "impossible", why }),
  });
  onCleanup(() => door.tell((player) => player.close()));
  const { follow } = companions;
  const { audio, ready: prepare } = door;
  const asking = makeAsking(door, isOn, rest);
  /** `prepare` loads all of it, within a press; `wake` goes on where the browser held it back. */
  const wake = () => void audio()?.resume();
  return { state, isOn, heard, isOver, follow, audio, prepare, wake, ...asking };
}

/** What is asked of the player, as long as it still wants to sound. */
function makeAsking(
  { ready, tell }: ReturnType<typeof makePlayerDoor>,
  isOn: () => boolean,
  rest: (next: ListenState) => void,
) {
  return {
    async ask(request: Request): Promise<void> {
      rest({ kind: "loading" });
      const player = await ready();
      if (isOn()) player?.ask(request);
    },
    /** Gets ready to play together, within a press; false, and said why, where that can't be. */
    async join(): Promise<boolean> {
      rest({ kind: "loading" });
      const player = await ready();
      if (isOn()) player?.stayAwake();
      return player !== undefined;
    },
    /** Takes up what is played together. */
    meet(meeting: Meeting): void {
      tell((player) => {
        if (isOn()) player.ask({ kind: "meet", meeting });
      });
    },
    stop(): void {
      rest({ kind: "silent" });
      tell((player) => player.ask({ kind: "stop" }));
    },
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
