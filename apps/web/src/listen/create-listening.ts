/** What one person hears of the board: how fast, what goes round, who plays, and where it is. */
import { type Mix, type PartSetting, usualMix } from "@halflap/sound/mix";
import type { Part } from "@halflap/sound/play-event";
import { usualSwing } from "@halflap/timeline/swing";
import { createContext, createSignal, useContext } from "solid-js";
import type { Desk } from "../board/desk.ts";
import { createSound } from "./create-sound.ts";
import type { Wishes } from "./player-messages.ts";
import type { Trial } from "./trial.ts";

export type Listening = ReturnType<typeof createListening>;

/** Plays from where the keys stand. */
export function createListening(desk: Desk) {
  const [wishes, setWishes] = createSignal<Wishes>({
    tempoFactor: 1,
    countsIn: true,
    loop: undefined,
    swing: usualSwing,
  });
  const [mix, setMix] = createSignal<Mix>(usualMix);
  const sound = createSound({ board: desk.session.board, wishes, mix });
  return {
    ...sound,
    wishes,
    wish: (change: Partial<Wishes>) => setWishes({ ...wishes(), ...change }),
    mix,
    setMix,
    setPart: (part: Part, change: Partial<PartSetting>) =>
      setMix({ ...mix(), [part]: { ...mix()[part], ...change } }),
    toggle: () =>
      sound.isOn() ? sound.stop() : void sound.ask({ kind: "play", bar: desk.place()?.bar }),
    /** Bars once, both lanes, as they are or with changes that are not made. */
    hear: (trial: Trial) => void sound.ask({ kind: "try", trial }),
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
