/** What one person hears of the board: how fast, what goes round, who plays, and where it is. */
import type { BarId } from "@halflap/board/board";
import { type Mix, type PartSetting, usualMix } from "@halflap/sound/mix";
import type { Part } from "@halflap/sound/play-event";
import { usualSwing } from "@halflap/timeline/swing";
import { createContext, createMemo, createSignal, useContext } from "solid-js";
import type { Desk } from "../board/desk.ts";
import { barWithSection } from "./bar-names.ts";
import { createPointing, type PointingChoice } from "./create-pointing.ts";
import { createSound } from "./create-sound.ts";
import type { Heard } from "./heard.ts";
import { nextStretch } from "./next-stretch.ts";
import type { Wishes } from "./player-messages.ts";
import { withBothLanes } from "./players.ts";
import { standingLoop } from "./sections-alone.ts";
import { createTogether } from "./together/create-together.ts";
import type { Trial } from "./trial.ts";

export type Listening = ReturnType<typeof createListening>;

const usualWishes: Wishes = {
  tempoFactor: 1,
  countsIn: true,
  loop: undefined,
  swing: usualSwing,
};

/** Plays from where the keys stand. */
export function createListening(desk: Desk) {
  const [wished, setWished] = createSignal(usualWishes);
  /** Whoever is here may take away what goes round. */
  const wishes = createMemo((): Wishes => {
    const loop = standingLoop(desk.session.board, wished().loop);
    return loop === wished().loop ? wished() : { ...wished(), loop };
  });
  const [mix, setMix] = createSignal<Mix>(usualMix);
  /** Whether what sounds is something tried, and not the tune. */
  const [isTrial, setTrial] = createSignal(false);
  const heardMix = () => (isTrial() ? withBothLanes(mix()) : mix());
  const sound = createSound({ board: desk.session.board, wishes, mix: heardMix });
  const change = (more: Partial<Wishes>) => setWished({ ...wished(), ...more });
  const { session } = desk;
  const onBegin = () => setTrial(false);
  const together = createTogether({ session, sound, wishes, adopt: change, onBegin });
  const wish = (more: Partial<Wishes>) => {
    change(more);
    together.turn(more);
  };
  const play = (bar: BarId | undefined) => {
    setTrial(false);
    if (together.isMeeting() && bar !== undefined) return together.jump(bar);
    together.leave();
    void sound.ask({ kind: "play", bar });
  };
  const hear = (trial: Trial) => {
    setTrial(true);
    together.leave();
    void sound.ask({ kind: "try", trial });
  };
  const pointing = createPointing(hear, () => isTrial() || !sound.isOn());
  const isPlaying = () => sound.isOn() && !isTrial();
  return {
    ...sound,
    wishes,
    wish,
    step: makeStep(desk, { wishes, wish, play, isPlaying, heard: sound.heard }),
    pointing: withSoundReady(pointing, () => void sound.prepare()),
    together,
    mix,
    setMix,
    setPart: (part: Part, change: Partial<PartSetting>) =>
      setMix({ ...mix(), [part]: { ...mix()[part], ...change } }),
    toggle() {
      if (together.isMeeting()) together.stop();
      else if (sound.isOn()) sound.stop();
      else play(desk.place()?.bar);
    },
    /** Bars or a grip once, as they are or with changes that are not made. */
    hear,
    /** The same for somebody who plays along: what is pointed at keeps quiet meanwhile. */
    accompany: (trial: Trial) => {
      setTrial(false);
      together.leave();
      return sound.ask({ kind: "try", trial });
    },
  };
}

type Stepping = {
  readonly wishes: () => Wishes;
  readonly heard: () => Heard | undefined;
  readonly isPlaying: () => boolean;
  wish(change: Partial<Wishes>): void;
  play(bar: BarId): void;
};

/** One section or loop on or back: at once while it plays, else the keys go there. */
function makeStep(desk: Desk, { wishes, heard, isPlaying, wish, play }: Stepping) {
  return (by: 1 | -1): void => {
    const { board } = desk.session;
    const place = barWithSection(board, desk.place()?.bar)?.section.id;
    const next = nextStretch(board, wishes().loop, heard()?.section ?? place, by);
    if (next === undefined) return;
    if (next.loop !== undefined) wish({ loop: next.loop });
    if (!isPlaying()) desk.goTo({ kind: "chords", bar: next.bar });
    else if (next.loop === undefined) play(next.bar);
  };
}

/** Whoever switches pointing on has pressed for sound, which is loaded then. */
function withSoundReady(pointing: ReturnType<typeof createPointing>, prepare: () => void) {
  return {
    ...pointing,
    setChoice(choice: PointingChoice): void {
      pointing.setChoice(choice);
      if (choice !== "off") prepare();
    },
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
