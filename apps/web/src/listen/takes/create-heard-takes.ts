/** Which takes one person hears along with the band, how loud, and the draft they go over. */
import type { TakeHead } from "@halflap/board/take";
import { tempoFactorMax, tempoFactorMin } from "@halflap/sound/performance";
import { createMemo, createSignal, onCleanup } from "solid-js";
import type { Desk } from "../../board/desk.ts";
import type { Listening } from "../create-listening.ts";
import type { createTakeSounds } from "./create-take-sounds.ts";
import { TakeDeck, type TakeVoice } from "./take-deck.ts";
import { isAtTempo, tempoOf } from "./take-places.ts";

/** How one person has set a take; off and as loud as the band unless they say otherwise. */
export type TakeSetting = { readonly isOn: boolean; readonly level: number };

const usual: TakeSetting = { isOn: false, level: 1 };

/** They sound with whatever the board plays, as long as this lives. */
export function createHeardTakes(
  { session }: Desk,
  listening: Listening,
  sounds: ReturnType<typeof createTakeSounds>,
) {
  const { board } = session;
  const [settings, setSettings] = createSignal<ReadonlyMap<string, TakeSetting>>(new Map());
  const [sounding, setSounding] = createSignal<ReadonlySet<string>>(new Set());
  const [draft, setDraft] = createSignal<TakeVoice>();
  const [played, setPlayed] = createSignal<number>();
  const settingOf = (id: string) => settings().get(id) ?? usual;
  const voices = createMemo<readonly TakeVoice[]>(() => {
    const kept = board.takes.flatMap((take): readonly TakeVoice[] => {
      const [state, { isOn, level }] = [sounds.stateOf(take.id), settingOf(take.id)];
      if (!isOn || state?.kind !== "ready") return [];
      return [{ id: take.id, take, sound: state.sound, gain: state.gain * level }];
    });
    const mine = draft();
    return mine === undefined ? kept : [...kept, mine];
  });
  const deck = new TakeDeck(setSounding);
  onCleanup(
    listening.follow((now) => {
      const { plan, context } = now;
      setPlayed(plan && tempoOf(plan, board.meter, context.sampleRate));
      deck.follow(now, voices(), board.meter);
    }),
  );
  /** Beats a minute at which the person hears the board, or would hear it. */
  const tempo = () => played() ?? board.tempo * listening.wishes().tempoFactor;
  /** How fast the board has to be played for a take, as near as it can be. */
  const factorOf = (take: TakeHead) =>
    Math.max(tempoFactorMin, Math.min(tempoFactorMax, take.tempo / board.tempo));
  return {
    settingOf,
    set(id: string, change: Partial<TakeSetting>): void {
      setSettings((all) => new Map(all).set(id, { ...settingOf(id), ...change }));
      const take = board.takes.find((each) => each.id === id);
      if (settingOf(id).isOn && take !== undefined) void sounds.load(id, take.offsetMs);
    },
    setDraft,
    isSounding: (id: string) => sounding().has(id),
    isAtTempo: (take: TakeHead) => isAtTempo(take, tempo()),
    /** Plays everything as fast as a take was played. */
    turnTempoTo: (take: TakeHead) => listening.wish({ tempoFactor: factorOf(take) }),
    /** Whether the board can be played so: its own tempo may have been changed since. */
    canTurnTempoTo: (take: TakeHead) => isAtTempo(take, board.tempo * factorOf(take)),
  };
}
