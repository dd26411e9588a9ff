/** The singing of a small board: where the voice is, and whose the gaps are. */
import type { Board } from "@halflap/board/board";
import { gapOwnerId, phraseId } from "@halflap/board/ids";
import { beatOf } from "@halflap/board/meter";
import type { GapOwner, Phrase, Voice } from "@halflap/board/singing";
import { ticks } from "@halflap/theory/units";
import { barNumbered } from "./small-playing.ts";

/** A sung phrase by bar number; `beat` from 1. */
export type SmallPhrase = Partial<Pick<Phrase, "melody">> & {
  readonly bar: number;
  readonly beat: number;
  readonly beats: number;
};

/** What is sung, by bar number. */
export type SmallSinging = {
  readonly phrases?: readonly SmallPhrase[];
  /** Who sings every pass; nobody said unless given. */
  readonly voice?: Omit<Voice, "id" | "name">;
  readonly gapOwners?: readonly (Pick<GapOwner, "owner"> & {
    readonly bar: number;
    readonly beat: number;
  })[];
};

/** Phrases and gap owners as a board holds them. */
export function singingOf(
  { phrases = [], gapOwners = [] }: SmallSinging,
  meter: Board["meter"],
): Pick<Board, "phrases" | "gapOwners"> {
  const beat = beatOf(meter);
  return {
    phrases: phrases.map(
      (phrase, index): Phrase => ({
        id: phraseId(`phrase${index}`),
        bar: barNumbered(phrase.bar),
        start: ticks((phrase.beat - 1) * beat),
        length: ticks(phrase.beats * beat),
        melody: phrase.melody ?? [],
      }),
    ),
    gapOwners: gapOwners.map(
      (gap, index): GapOwner => ({
        id: gapOwnerId(`gap${index}`),
        bar: barNumbered(gap.bar),
        at: ticks((gap.beat - 1) * beat),
        owner: gap.owner,
      }),
    ),
  };
}
