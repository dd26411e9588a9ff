/**
 * The Board: one tune's arrangement as plain, immutable data, always valid, however its documents
 * were made.
 */
import type { Chord } from "@halflap/theory/chord";
import type { Grip } from "@halflap/theory/grip";
import type { Key } from "@halflap/theory/key";
import type { Setup } from "@halflap/theory/tuning";
import type { Ticks } from "@halflap/theory/units";

export type BarId = string & { readonly unit: "BarId" };
export type SlotId = string & { readonly unit: "SlotId" };
export type SectionId = string & { readonly unit: "SectionId" };
export type FormEntryId = string & { readonly unit: "FormEntryId" };
export type SilenceId = string & { readonly unit: "SilenceId" };
export type MemberId = string & { readonly unit: "MemberId" };

/** The two lanes, from the top of the page down. */
export const laneIds = ["upper", "lower"] as const;
export type LaneId = (typeof laneIds)[number];

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
};

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
};

export type Member = { readonly id: MemberId; readonly name: string; readonly role: Role };

/** Content that no longer has a place, kept so that it can be brought back. */
export type SetAside = {
  readonly bars: readonly BarId[];
  /** What stands in each of those bars, as chart text: "Gm7 . C7 .". */
  readonly texts: ReadonlyMap<BarId, string>;
  /** Slots without a bar, or pushed out of theirs. */
  readonly slots: readonly { readonly id: SlotId; readonly text: string }[];
};

export type Board = {
  readonly title: string;
  readonly key: Key;
  /** Beats (of the meter) a minute. */
  readonly tempo: number;
  readonly meter: Meter;
  readonly feel: Feel;
  /** Whether somebody plays bass: then roots may be left out of the grips. */
  readonly hasBass: boolean;
  readonly sections: readonly Section[];
  readonly form: readonly FormEntry[];
  readonly silences: readonly Silence[];
  readonly lanes: Readonly<Record<LaneId, Lane>>;
  readonly members: readonly Member[];
  readonly setAside: SetAside;
};
