/**
 * What is played: every bar of every different pass through a section, and the passes in the order
 * of the form. Checker, sound and paper all read this one timeline.
 */
import type {
  Bar,
  BarAim,
  FormEntryId,
  LaneId,
  Section,
  SectionId,
  SlotId,
} from "@halflap/board/board";
import type { Dynamic, Fill, FillNote, Stroke, Strum } from "@halflap/board/playing";
import type { GapOwner, Phrase, Voice } from "@halflap/board/singing";
import type { Grip, GripNote } from "@halflap/theory/grip";
import type { Ticks } from "@halflap/theory/units";
import type { Swing } from "./swing.ts";

/** A stroke across the strings of a grip. */
export type StrokeAttack = {
  readonly kind: "stroke";
  /** As written, from the start of the bar. */
  readonly at: Ticks;
  /** As heard, swing applied. */
  readonly sounds: Ticks;
  /** The slot whose grip sounds; with a push it is the slot after the one in which it falls. */
  readonly slot: SlotId;
  readonly stroke: Stroke;
  /** undefined where no pattern is set: the grip is struck once and held. */
  readonly strum: Strum | undefined;
  /** From string 6 to 1; empty for a ghost stroke. */
  readonly notes: readonly GripNote[];
};

/** One note of a fill or line; those of a double stop are struck at once. */
export type FigureAttack = {
  readonly kind: "note";
  readonly at: Ticks;
  readonly sounds: Ticks;
  /** The slot in which it falls. */
  readonly slot: SlotId;
  readonly fill: Fill;
  readonly note: FillNote;
  /** The one string; empty when its fret is not on the neck. */
  readonly notes: readonly GripNote[];
};

export type Attack = StrokeAttack | FigureAttack;

/** A fill or line as far as it lies in one bar, in ticks from the start of the bar. */
export type FigureSpan = { readonly fill: Fill; readonly start: Ticks; readonly end: Ticks };

/** What one lane plays in one bar of one pass. */
export type LaneBar = {
  readonly lane: LaneId;
  readonly bar: Bar;
  /** Lays out here, in this bar or in the whole pass. */
  readonly rests: boolean;
  /** The grip of each slot of the bar; undefined where none is chosen. */
  readonly grips: readonly (Grip | undefined)[];
  /** Where the hand goes to each of them, from the start of the bar as heard. */
  readonly changes: readonly Ticks[];
  readonly strum: Strum | undefined;
  /** By `at`, then by string from the lowest. */
  readonly attacks: readonly Attack[];
  /** Where the hand stops the strings, from the start of the bar as heard, ascending. */
  readonly chokes: readonly Ticks[];
  /** By start. */
  readonly figures: readonly FigureSpan[];
  /** undefined where nothing is written. */
  readonly dynamic: Dynamic | undefined;
  readonly palmMute: boolean;
  readonly letRing: boolean;
};

export type PlayedBar = {
  readonly bar: Bar;
  /** From the start of the passage. */
  readonly start: Ticks;
  /** What the band means this bar to be; undefined = nothing in particular. */
  readonly aims: readonly BarAim[] | undefined;
  readonly lanes: Readonly<Record<LaneId, LaneBar>>;
};

/** A sung phrase in a passage, in ticks from its start. */
export type Sung = {
  readonly phrase: Phrase;
  /** undefined where phrases are marked but nobody said who sings. */
  readonly voice: Voice | undefined;
  readonly start: Ticks;
  readonly end: Ticks;
};

/** A stretch between sung phrases, in ticks from the start of the passage. */
export type Gap = {
  readonly start: Ticks;
  readonly end: Ticks;
  readonly owner: GapOwner["owner"] | undefined;
};

/** One way a section is played: passes that do not differ share it. */
export type Passage = {
  /** The section's id, and what sets this way apart. */
  readonly id: string;
  readonly section: Section;
  readonly bars: readonly PlayedBar[];
  readonly length: Ticks;
  /** By start; empty when nobody sings. */
  readonly sung: readonly Sung[];
  /** By start; empty when nobody sings. */
  readonly gaps: readonly Gap[];
  /** The sections with bars that follow it in the form, each once, in the order of the form. */
  readonly next: readonly SectionId[];
  /** Whether it is played only where the tune ends; false for a section outside the form. */
  readonly endsTune: boolean;
};

/** One round of a form entry. */
export type Pass = {
  readonly passage: Passage;
  readonly entry: FormEntryId;
  /** From 1. */
  readonly round: number;
  /** From the start of the tune, count-in left out. */
  readonly start: Ticks;
};

export type Timeline = {
  /** In chart order; a section outside the form comes once, so that it is checked too. */
  readonly passages: readonly Passage[];
  readonly passes: readonly Pass[];
  readonly length: Ticks;
  /** How far off-beats are late wherever it swings. */
  readonly swing: Swing;
};
