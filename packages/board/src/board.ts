/**
 * The Board: one tune's arrangement as plain, immutable data, always valid, however its documents
 * were made.
 */
import type { Chord } from "@halflap/theory/chord";
import type { Grip } from "@halflap/theory/grip";
import type { Key } from "@halflap/theory/key";
import type { Setup } from "@halflap/theory/tuning";
import type { Ticks } from "@halflap/theory/units";
import type { FillId, GapOwnerId, PhraseId, StrumId, VoiceId } from "./ids.ts";
import * as ids from "./ids.ts";
import type { Dynamic, Fill, Strum } from "./playing.ts";
import type { Proposal } from "./proposal.ts";
import type { GapOwner, Phrase, Voice } from "./singing.ts";
import type { Take } from "./take.ts";
import type { LaneWishes } from "./wishes.ts";

// The ids stand with what makes them; these are their names for everybody.
export type BarId = ids.BarId;
export type FormEntryId = ids.FormEntryId;
export type LaneId = ids.LaneId;
export type MemberId = ids.MemberId;
export type SectionId = ids.SectionId;
export type SilenceId = ids.SilenceId;
export type SlotId = ids.SlotId;

/** The two lanes, from the top of the page down. */
export const laneIds = ids.laneIds;

export type Role = "leader" | "player" | "listener";
export type Feel = "straight" | "swing" | "shuffle";
/** beats a bar, over the note value that is one beat: 4 = quarter. */
export type Meter = { readonly beats: number; readonly unit: 2 | 4 | 8 | 16 };

/** The time from one chord symbol to the next: what a grip is chosen for. */
export type Slot = {
  readonly id: SlotId;
  /** From the start of its bar. The slots of a bar cover it without gap or overlap. */
  readonly start: Ticks;
  readonly length: Ticks;
  /** What was typed, kept to the letter. */
  readonly text: string;
  /** undefined when the text can't be read as a chord. */
  readonly chord: Chord | undefined;
};

export type Bar = {
  readonly id: BarId;
  /** 1-based, counted through the chart (not the form). */
  readonly number: number;
  readonly length: Ticks;
  /** The rounds of its form entry in which it is played, from 1; undefined = all (an ending). */
  readonly rounds: readonly number[] | undefined;
  readonly slots: readonly Slot[];
};

export type Section = {
  readonly id: SectionId;
  readonly name: string;
  /** The section whose chords this one plays; its bars then carry ids of their own. */
  readonly borrows: SectionId | undefined;
  readonly bars: readonly Bar[];
};

export type FormEntry = {
  readonly id: FormEntryId;
  readonly section: SectionId;
  readonly times: number;
  /** Who sings each round, first round first; undefined or missing = nobody. */
  readonly singers: readonly (VoiceId | undefined)[];
};

/** What the band means a bar to be, so that the checker does not take it for an accident. */
export const barAims = ["unison", "lock", "weave", "stop", "build"] as const;
/**
 * unison = both play the same notes on purpose (riff, hook); lock = both strum alike on purpose;
 * weave = the parts cross on purpose; stop = a kick or stop for all; build = growing, as full as
 * it likes.
 */
export type BarAim = (typeof barAims)[number];

/** A finding that the players have agreed to live with. */
export type Silence = {
  readonly id: SilenceId;
  readonly rule: string;
  readonly bars: readonly BarId[];
  readonly reason: string;
};

export type Lane = {
  readonly id: LaneId;
  readonly owner: MemberId | undefined;
  readonly setup: Setup;
  readonly grips: ReadonlyMap<SlotId, Grip>;
  /** Bars in which this guitarist rests. */
  readonly layOuts: ReadonlySet<BarId>;
  /** A short text on a bar: "let ring", "fill, beats 3 and 4". */
  readonly marks: ReadonlyMap<BarId, string>;
  /** The chord text each grip was chosen for, where it is known. */
  readonly chosenFor: ReadonlyMap<SlotId, string>;
  /** The lane's own library of strum patterns, in the order of their ids. */
  readonly strums: ReadonlyMap<StrumId, Strum>;
  readonly strumming: Strumming;
  readonly fills: ReadonlyMap<FillId, Fill>;
  /** How loud from this bar on, to the next such mark or the end of the section. */
  readonly dynamics: ReadonlyMap<BarId, Dynamic>;
  readonly palmMutes: ReadonlySet<BarId>;
  /** Bars in which what was struck rings on through the next change. */
  readonly letRings: ReadonlySet<BarId>;
  /** Passes in which this guitarist rests throughout. */
  readonly restingPasses: ReadonlySet<FormEntryId>;
  /** What this guitarist asks of a part that is fitted for them. */
  readonly wishes: LaneWishes;
};

/**
 * Which strum pattern plays where. The nearest counts: the pass, then the bar, then the section,
 * then the lane. Without any, a grip is struck once where its slot starts, and held.
 */
export type Strumming = {
  readonly lane: StrumId | undefined;
  readonly sections: ReadonlyMap<SectionId, StrumId>;
  readonly bars: ReadonlyMap<BarId, StrumId>;
  readonly passes: ReadonlyMap<FormEntryId, StrumId>;
};

export type Member = { readonly id: MemberId; readonly name: string; readonly role: Role };

/** Content that no longer has a place, kept so that it can be brought back. */
export type SetAside = {
  readonly bars: readonly BarId[];
  /** What stands in each of those bars, as chart text: "Gm7 . C7 .". */
  readonly texts: ReadonlyMap<BarId, string>;
  /** Slots without a bar, or pushed out of theirs; `was` = where they stood, if that is known. */
  readonly slots: readonly {
    readonly id: SlotId;
    readonly text: string;
    readonly was: { readonly bar: BarId; readonly at: number } | undefined;
  }[];
  /** In the chart still, but in bars that became too short for it. */
  readonly waiting: readonly Waiting[];
};

/** What starts beyond the end of its bar (B25): not played until the bar is long enough. */
export type Waiting = { readonly bar: BarId; readonly start: Ticks } & (
  | { readonly kind: Fill["kind"]; readonly id: FillId; readonly lane: LaneId }
  | { readonly kind: "phrase"; readonly id: PhraseId }
  | { readonly kind: "gap"; readonly id: GapOwnerId }
);

export type Board = {
  readonly title: string;
  readonly key: Key;
  /** Beats a minute; in 6/8 and the like a beat is three eighths. */
  readonly tempo: number;
  readonly meter: Meter;
  readonly feel: Feel;
  /** Whether somebody plays bass: then roots may be left out of the grips. */
  readonly hasBass: boolean;
  /** Bars counted in before the first. */
  readonly countIn: number;
  /** How the tune ends, in the band's words; "" = not agreed. */
  readonly ending: string;
  /** Whether minor against major thirds are the style, as in a blues. */
  readonly blueNotes: boolean;
  /** Whether the guitars are heavily distorted. */
  readonly distorted: boolean;
  readonly sections: readonly Section[];
  readonly form: readonly FormEntry[];
  readonly silences: readonly Silence[];
  readonly voices: readonly Voice[];
  readonly phrases: readonly Phrase[];
  readonly gapOwners: readonly GapOwner[];
  readonly aims: ReadonlyMap<BarId, readonly BarAim[]>;
  /** The checker's limits that this band has set differently, by their names there. */
  readonly limits: ReadonlyMap<string, number>;
  readonly proposals: readonly Proposal[];
  readonly lanes: Readonly<Record<LaneId, Lane>>;
  readonly members: readonly Member[];
  readonly takes: readonly Take[];
  readonly setAside: SetAside;
};
