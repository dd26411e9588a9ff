/**
 * What the open board offers to everything that draws: data to read, intents to send. No Yjs beyond
 * this folder.
 */
import type {
  Bar,
  BarAim,
  BarId,
  Board,
  FormEntryId,
  LaneId,
  MemberId,
  SectionId,
  SlotId,
} from "@halflap/board/board";
import type { BoardCopy } from "@halflap/board/copy";
import type { Played } from "@halflap/board/edits/form-change";
import type { PhraseId, ProposalId, VoiceId } from "@halflap/board/ids";
import type { LaneEdit } from "@halflap/board/proposal";
import type { GapOwner, Phrase, Voice } from "@halflap/board/singing";
import type { LaneWishes } from "@halflap/board/wishes";
import type { Finding } from "@halflap/checker/finding";
import type { WayOut } from "@halflap/checker/ways-out";
import type { Grip } from "@halflap/theory/grip";
import type { Key } from "@halflap/theory/key";
import type { Tuning } from "@halflap/theory/tuning";
import type { Fret, Ticks } from "@halflap/theory/units";
import type { BoardId, Me } from "@halflap/wire/api";
import type { Presence } from "@halflap/wire/presence";
import type { FeedMessage } from "./board-feed.ts";
import type { TogetherWire } from "./together-wire.ts";

/** Changes that wait for the server. */
type Waiting = {
  readonly changes: number;
  /** This browser keeps them meanwhile. */
  readonly isKept: boolean;
};

/** Honest, and only these: "saved" is on the server's disk; "kept" is in this browser only. */
export type SaveState =
  | { readonly kind: "opening" }
  | { readonly kind: "saved" }
  | { readonly kind: "sending"; readonly changes: number }
  | ({ readonly kind: "offline" } & Waiting)
  | ({ readonly kind: "store-full" } & Waiting)
  | ({ readonly kind: "unreadable" } & Waiting)
  | { readonly kind: "refused"; readonly words: string; readonly copy: BoardCopy }
  | { readonly kind: "closed"; readonly words: string };

/** Commands on the chart: refused (and never sent) for a listener. */
export type ChartIntents = {
  setTitle(title: string): void;
  setKey(key: Key): void;
  setTempo(tempo: number): void;
  /** Bars with a length of their own keep it; the others follow the meter. */
  setMeter(meter: Board["meter"]): void;
  setFeel(feel: Board["feel"]): void;
  setHasBass(hasBass: boolean): void;
  addSection(name: string, after: SectionId | undefined): SectionId;
  renameSection(section: SectionId, name: string): void;
  moveSection(section: SectionId, index: number): void;
  removeSection(section: SectionId): void;
  /** The section plays the chords of `from`, or its own again; its own bars wait meanwhile. */
  borrowSection(section: SectionId, from: SectionId | undefined): void;
  addBar(section: SectionId, index: number, text: string): BarId;
  /**
   * Replaces what stands in a bar, "Gm7 . C7 ."; slots that stay keep their ids and so their grips.
   */
  writeBar(bar: Bar, text: string): { readonly problem: string } | undefined;
  /** undefined = as long as the meter says. */
  setBarLength(bar: BarId, length: Ticks | undefined): void;
  moveBar(bar: BarId, section: SectionId, index: number): void;
  removeBar(bar: BarId): void;
  bringBackBar(bar: BarId, section: SectionId, index: number): void;
  /** A chord that was taken out starts again, `at` ticks from the start of the bar. */
  bringBackSlot(slot: SlotId, bar: BarId, at: number): void;
  /** An entry with an id is that one again, with all that hangs on it. */
  setForm(form: readonly Played[]): void;
  silence(rule: string, bars: readonly BarId[], reason: string): void;
  /** Takes the bars out of every silence of the rule. */
  unsilence(rule: string, bars: readonly BarId[]): void;
  setCountIn(bars: number): void;
  setEnding(words: string): void;
  setBlueNotes(on: boolean): void;
  setDistorted(on: boolean): void;
  /** A limit of the checker as this band wants it; undefined = as it comes. */
  setLimit(name: string, value: number | undefined): void;
  /** What the band means a bar to be; none = nothing in particular. */
  setAims(bar: BarId, aims: readonly BarAim[]): void;
  /** The rounds in which a bar is played; undefined = all. */
  setRounds(bar: BarId, rounds: readonly number[] | undefined): void;
};

/** Commands on who sings what, and who has the gaps; refused for a listener. */
export type SingingIntents = {
  addVoice(voice: Omit<Voice, "id">): VoiceId;
  changeVoice(voice: Voice): void;
  removeVoice(voice: VoiceId): void;
  /** Writes some phrases down and takes others away, as one step. */
  rewritePhrases(put: readonly Phrase[], remove: readonly PhraseId[]): void;
  /** Whose fill it is in the gap around a place; undefined = not said. */
  setGapOwner(place: Omit<GapOwner, "id" | "owner">, owner: GapOwner["owner"] | undefined): void;
  /** Who sings each round of a form entry, first round first. */
  setSingers(entry: FormEntryId, singers: readonly (VoiceId | undefined)[]): void;
};

/** What one player offers another. */
export type ProposalIntents = {
  /** Offers a change of a lane to whoever owns it. */
  offer(lane: LaneId, words: string, bars: readonly BarId[], edits: readonly LaneEdit[]): void;
  /** My lane takes the change, as one step that undo takes back; it must be offered to my lane. */
  take(proposal: ProposalId): void;
  /** It is offered no more: declined by the lane's owner, or taken back. */
  drop(proposal: ProposalId): void;
};

/** Commands on the lane I own. */
export type LaneIntents = {
  placeGrip(slot: SlotId, grip: Grip): void;
  clearGrip(slot: SlotId): void;
  setTuning(tuning: Tuning): void;
  setCapo(capo: Fret): void;
  setFretsFrom(from: "nut" | "capo"): void;
  layOut(bar: BarId, rest: boolean): void;
  setMark(bar: BarId, text: string): void;
  /**
   * Any changes to the lane, as one step that undo takes back; grips were chosen for the chords
   * that are given, others for those that stand.
   */
  edit(edits: readonly LaneEdit[], chosenFor?: ReadonlyMap<SlotId, string>): void;
  /**
   * Changes some wishes and leaves the others, as one step that undo takes back; `undefined` and
   * the usual value take a wish back. No lower bound may come to lie above its upper one.
   */
  setWishes(change: Partial<LaneWishes>): void;
};

export type Session = {
  readonly id: BoardId;
  /** Every field is live: reading it in a memo or an effect follows that field alone. */
  readonly board: Board;
  readonly me: () => Me;
  /** The lane I own, if I own one. */
  readonly ownLane: () => LaneId | undefined;
  readonly mayEditChart: () => boolean;
  /** In reading order; worked out beside the page, so a moment after the board. */
  readonly findings: () => readonly Finding[];
  /** Whether the findings were worked out at all: before that, none means nothing. */
  readonly isChecked: () => boolean;
  /** How often the chart was changed from elsewhere; tells with the change. */
  readonly heardCharts: () => number;
  /** What could be done about a finding, best first. */
  readonly waysOut: (finding: string) => Promise<readonly WayOut[]>;
  /** What a copy of the board in a worker needs, now and later; until the end that it gives. */
  readonly feed: (send: (message: FeedMessage) => void) => () => void;
  /** An id for something new: a strum pattern, a fill. */
  readonly makeId: () => string;
  readonly state: () => SaveState;
  /** Others on the board now, never myself. */
  readonly presence: () => readonly Presence[];
  /** Tells the others where I am. */
  setWhere(where: { readonly lane: LaneId; readonly slot: SlotId } | undefined): void;
  /** Tells the others that I hear what is played together, and how well my clock agrees. */
  setWithin(withinMs: number | undefined): void;
  /** The line over which everybody plays the same. */
  readonly together: () => TogetherWire;
  readonly chart: ChartIntents;
  readonly singing: SingingIntents;
  readonly proposals: ProposalIntents;
  /** undefined while I own no lane. */
  readonly lane: () => LaneIntents | undefined;
  readonly claim: (lane: LaneId) => Promise<{ readonly problem: string } | undefined>;
  readonly release: (lane: LaneId) => Promise<{ readonly problem: string } | undefined>;
  readonly handOver: (
    lane: LaneId,
    to: MemberId | undefined,
  ) => Promise<{ readonly problem: string } | undefined>;
  undo(): void;
  redo(): void;
  readonly canUndo: () => boolean;
  readonly canRedo: () => boolean;
  /** The complete JSON copy as it stands here. */
  copy(): BoardCopy;
  /** Whether a newer Halflap wrote some of the board, so that not all of it may show here. */
  readonly isNewer: () => boolean;
  /**
   * Whether this browser keeps the board and the copies of what was refused; false without storage
   * or without room.
   */
  readonly isKept: () => boolean;
  /** Whether some of what was done here can't be read any more, or is nowhere. */
  readonly lacksWork: () => boolean;
  /** The person is done with a refused change: its copy is no longer needed. */
  dismissRefusal(): void;
};
