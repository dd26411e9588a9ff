/** The takes of a board as one person hears them: which are on, how loud, and a draft of theirs. */
import type { Take, TakeHead } from "@halflap/board/take";
import { apiPath } from "@halflap/wire/api";
import { mayTake } from "@halflap/wire/permissions";
import { createMemo, createSignal, onCleanup } from "solid-js";
import type { Desk } from "../../board/desk.ts";
import { server } from "../../session/server.ts";
import { chartEnds } from "../bar-names.ts";
import type { Listening } from "../create-listening.ts";
import { createRecording, type Draft } from "./create-recording.ts";
import { createSending } from "./create-sending.ts";
import { decodeSound } from "./recorder.ts";
import { TakeDeck, type TakeVoice } from "./take-deck.ts";
import { takeGain } from "./take-level.ts";
import { isAtTempo, tempoOf } from "./take-places.ts";

/** How one person has set a take; off and as loud as the band unless they say otherwise. */
export type TakeSetting = { readonly isOn: boolean; readonly level: number };
export type SoundState =
  | { readonly kind: "loading" }
  | { readonly kind: "ready"; readonly sound: AudioBuffer; readonly gain: number }
  | { readonly kind: "failed"; readonly why: "away" | "unreadable" };

export type Takes = ReturnType<typeof createTakes>;

const usual: TakeSetting = { isOn: false, level: 1 };
const draftVoice = "draft";

/** Lives as long as what it is made in; sounds along with whatever the board plays. */
export function createTakes(desk: Desk, listening: Listening) {
  const { session } = desk;
  const { board } = session;
  const [settings, setSettings] = createSignal<ReadonlyMap<string, TakeSetting>>(new Map());
  const [sounding, setSounding] = createSignal<ReadonlySet<string>>(new Set());
  const [draft, setDraft] = createSignal<TakeVoice>();
  const [problem, setProblem] = createSignal<string>();
  const sounds = createSounds(session.id);
  const settingOf = (id: string) => settings().get(id) ?? usual;
  const set = (id: string, change: Partial<TakeSetting>) => {
    setSettings((all) => new Map(all).set(id, { ...settingOf(id), ...change }));
    if (settingOf(id).isOn) void sounds.load(id);
  };
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
  const [played, setPlayed] = createSignal<number>();
  onCleanup(
    listening.follow((now) => {
      const { plan, context } = now;
      setPlayed(plan && tempoOf(plan, board.meter, context.sampleRate));
      deck.follow(now, voices(), board.meter);
    }),
  );

  const sending = createSending(session, (id, { key }) => {
    // Whoever recorded it has its sound already, and wants to hear it.
    sounds.rename(key, id);
    set(id, { isOn: true });
  });
  /** Beats a minute at which the person hears the board, or would hear it. */
  const tempo = () => played() ?? board.tempo * listening.wishes().tempoFactor;
  return {
    recording: createRecording(desk, listening),
    sending,
    problem,
    settingOf,
    set,
    soundOf: sounds.stateOf,
    isSounding: (id: string) => sounding().has(id),
    isAtTempo: (take: TakeHead) => isAtTempo(take, tempo()),
    /** Plays everything as fast as a take was played. */
    turnTempoTo: (take: TakeHead) => listening.wish({ tempoFactor: take.tempo / board.tempo }),
    mayRecord: () => mayTake(session.me().role, "record-take"),
    mayRemove: (take: Take) =>
      mayTake(session.me().role, "remove-any-take") ||
      (take.from === session.me().id && mayTake(session.me().role, "remove-own-take")),
    async remove(take: Take): Promise<void> {
      const answer = await server.removeTake(session.id, take.id);
      setProblem(answer.ok ? undefined : answer.words);
    },
    /** Lets a draft sound with the band from its first bar on. */
    hearDraft({ sound }: Draft, head: TakeHead): void {
      setDraft({ id: draftVoice, take: head, sound, gain: takeGain(sound.getChannelData(0)) });
      const ends = chartEnds(
        board,
        head.bars.map(({ bar }) => bar),
      );
      if (ends === undefined) return;
      const bars = { kind: "once", ...ends } as const;
      const whole = { lane: "upper", edits: [], slot: undefined, heard: "all" } as const;
      void listening.accompany({ bars, ...whole, countsIn: true });
    },
    /** While a draft sounds it follows its nudging. */
    nudgeDraft: (head: TakeHead) => setDraft((now) => now && { ...now, take: head }),
    leaveDraft: () => setDraft(undefined),
    keep({ blob, sound }: Draft, head: TakeHead): void {
      setDraft(undefined);
      const gain = takeGain(sound.getChannelData(0));
      sounds.put(sending.keep(head, blob), { kind: "ready", sound, gain });
    },
  };
}

/** The sound of each take, fetched and decoded when it is first wanted. */
function createSounds(board: Parameters<typeof apiPath.take>[0]) {
  const [states, setStates] = createSignal<ReadonlyMap<string, SoundState>>(new Map());
  const put = (id: string, state: SoundState) => setStates((all) => new Map(all).set(id, state));
  async function load(id: string): Promise<void> {
    const known = states().get(id);
    if (known !== undefined && known.kind !== "failed") return;
    put(id, { kind: "loading" });
    put(id, await soundAt(`${apiPath.takes(board)}/${id}`));
  }
  /** What was heard under one id is heard under another from now on. */
  function rename(from: string, to: string): void {
    const all = new Map(states());
    const state = all.get(from);
    all.delete(from);
    if (state !== undefined) all.set(to, state);
    setStates(all);
  }
  return { stateOf: (id: string) => states().get(id), put, load, rename };
}

async function soundAt(address: string): Promise<SoundState> {
  let bytes: ArrayBuffer;
  try {
    const answer = await fetch(address, { credentials: "same-origin" });
    if (!answer.ok) return { kind: "failed", why: "away" };
    bytes = await answer.arrayBuffer();
  } catch {
    return { kind: "failed", why: "away" };
  }
  try {
    const sound = await decodeSound(bytes);
    return { kind: "ready", sound, gain: takeGain(sound.getChannelData(0)) };
  } catch {
    return { kind: "failed", why: "unreadable" };
  }
}
