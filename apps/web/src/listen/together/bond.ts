/** What every part of playing together works with: the word, the clocks, the sound, the board. */
import { serverTime } from "@halflap/wire/agreement";
import type { SharedPlay, Told } from "@halflap/wire/together";
import { type Accessor, createMemo, createSignal, type Setter, untrack } from "solid-js";
import type { Session } from "../../session/session.ts";
import type { createSound } from "../create-sound.ts";
import type { Wishes } from "../player-messages.ts";
import type { Timed } from "./course.ts";
import { createClock, type SharedAgreement } from "./create-clock.ts";
import type { Word } from "./following.ts";

/** What it needs to know of one browser's listening, and what it changes there. */
export type TogetherSource = {
  readonly session: Session;
  readonly sound: Pick<
    ReturnType<typeof createSound>,
    "isOn" | "join" | "meet" | "stop" | "follow"
  >;
  readonly wishes: () => Wishes;
  /** Takes over the tempo and the loop that everybody hears. */
  adopt(change: Pick<Wishes, "tempoFactor" | "loop">): void;
  /** What sounds from now on is played together. */
  onBegin(): void;
};

/** Why a start came to nothing. */
export type StartTrouble = "unreached" | "nothing";

export type Bond = TogetherSource & {
  /** Tells anew whenever the server does. */
  readonly told: () => Told | undefined;
  /** What is played; undefined when nothing is. */
  readonly word: Accessor<Word | undefined>;
  readonly agreement: Accessor<SharedAgreement | undefined>;
  /** The server's time, in ms; undefined while it is not known. */
  nowThere(): number | undefined;
  /** What of the board says when its bars come. */
  timed(): Timed;
  /** Asks the server; false when there is nothing to ask for. */
  ask(play: SharedPlay | undefined): boolean;
  /** Whether this browser plays whatever is played together: somebody pressed, and may again. */
  readonly isWilling: Accessor<boolean>;
  readonly setWilling: Setter<boolean>;
  /** Whether what sounds here is played together. */
  readonly isMeeting: Accessor<boolean>;
  readonly setMeeting: Setter<boolean>;
  readonly trouble: Accessor<StartTrouble | undefined>;
  readonly setTrouble: Setter<StartTrouble | undefined>;
};

/** Nobody is willing yet. */
export function createBond(source: TogetherSource): Bond {
  const { session } = source;
  const [isWilling, setWilling] = createSignal(false);
  const [isMeeting, setMeeting] = createSignal(false);
  const [trouble, setTrouble] = createSignal<StartTrouble>();
  const agreement = createClock(session.together, isMeeting);
  const told = () => session.together().told();
  const word = createMemo<Word | undefined>(() => {
    const now = told();
    if (now?.kind !== "word" || now.wish.kind !== "playing") return undefined;
    return { revision: now.revision, play: now.wish };
  });
  return {
    ...source,
    told,
    word,
    agreement,
    nowThere() {
      const agreed = agreement();
      return agreed && serverTime(agreed, performance.now());
    },
    timed() {
      const { sections, form, tempo, meter } = session.board;
      return { sections, form, tempo, meter };
    },
    ask(play) {
      if (play !== undefined) untrack(session.together).ask(play);
      return play !== undefined;
    },
    ...{ isWilling, setWilling, isMeeting, setMeeting, trouble, setTrouble },
  };
}
