/** Voices, phrases, aims and proposals as they are stored and copied: plain values by id. */
import { midiNoteMax } from "@halflap/theory/units";
import { type BarAim, barAims, type LaneId, laneIds } from "./board.ts";
import type { ChartState } from "./chart-state.ts";
import {
  type Decode,
  lineOf,
  listOf,
  maybe,
  numberIn,
  objectOf,
  oneOf,
  tableOf,
  wholeIn,
} from "./decode.ts";
import { isContentId, isStoredId } from "./ids.ts";
import { laneEditCopy } from "./lane-edit-copy.ts";
import * as limits from "./limits.ts";
import { contentId, type LaneEditCopy, laneEditShape, storedId } from "./playing-shape.ts";
import type { Proposal } from "./proposal.ts";
import {
  type GapOwner,
  type Phrase,
  type SungNote,
  type Voice,
  type VoiceType,
  voiceTypes,
} from "./singing.ts";
import { isLimitName, type Singers, type Song } from "./singing-state.ts";

/** `low` and `high` are MIDI notes. */
export type VoiceCopy = {
  readonly name: string;
  readonly lane?: LaneId;
  readonly type?: VoiceType;
  readonly low?: number;
  readonly high?: number;
};
export type SungNoteCopy = {
  readonly start: number;
  readonly length: number;
  readonly pitch: number;
};
export type PhraseCopy = {
  readonly bar: string;
  readonly start: number;
  readonly length: number;
  readonly melody: readonly SungNoteCopy[];
};
export type GapOwnerCopy = {
  readonly bar: string;
  readonly at: number;
  readonly owner: GapOwner["owner"];
};
/** Who offers it belongs to a band, not to the music. */
export type ProposalCopy = {
  readonly lane: LaneId;
  readonly words: string;
  readonly bars: readonly string[];
  readonly edits: readonly LaneEditCopy[];
  /** By slot: the chord that its grip was offered for. */
  readonly chords?: Readonly<Record<string, string>>;
};
/** Each a table by id; `singers` by form entry, `aims` and `barRounds` by bar. */
export type SongCopy = {
  readonly voices: Readonly<Record<string, VoiceCopy>>;
  readonly phrases: Readonly<Record<string, PhraseCopy>>;
  readonly gapOwners: Readonly<Record<string, GapOwnerCopy>>;
  readonly singers: Readonly<Record<string, readonly (string | null)[]>>;
  readonly aims: Readonly<Record<string, readonly BarAim[]>>;
  readonly barRounds: Readonly<Record<string, readonly number[]>>;
  readonly limits: Readonly<Record<string, number>>;
  readonly proposals: Readonly<Record<string, ProposalCopy>>;
};

/** Nothing sung, meant or proposed. */
export function plainSong(): SongCopy {
  return {
    ...{ voices: {}, phrases: {}, gapOwners: {}, singers: {}, aims: {}, barRounds: {} },
    ...{ limits: {}, proposals: {} },
  };
}

/** The settings of a board of which only the chart is known. */
export const unsaidSettings = { countIn: 1, ending: "", blueNotes: false, distorted: false };

/** All of a song as plain values. */
export function songCopy(
  song: Song & { readonly proposals: readonly Proposal[] },
  { singers, rounds }: Pick<ChartState, "singers" | "rounds">,
): SongCopy {
  return {
    voices: byItsId(song.voices, voiceCopy),
    phrases: byItsId(song.phrases, phraseCopy),
    gapOwners: byItsId(song.gapOwners, gapOwnerCopy),
    singers: singersCopy(singers),
    aims: Object.fromEntries(song.aims),
    barRounds: Object.fromEntries(rounds),
    limits: Object.fromEntries(song.limits),
    proposals: byItsId(song.proposals, proposalCopy),
  };
}

/** A voice as it is stored. */
export function voiceCopy({ name, lane, type, range }: Omit<Voice, "id">): VoiceCopy {
  return {
    name,
    ...(lane === undefined ? {} : { lane }),
    ...(type === undefined ? {} : { type }),
    ...(range === undefined ? {} : { low: range.low, high: range.high }),
  };
}

/** A phrase as it is stored. */
export function phraseCopy({ bar, start, length, melody }: Omit<Phrase, "id">): PhraseCopy {
  return { bar, start, length, melody: melody.map((note: SungNote) => ({ ...note })) };
}

/** The owner of a gap as it is stored. */
export function gapOwnerCopy({ bar, at, owner }: Omit<GapOwner, "id">): GapOwnerCopy {
  return { bar, at, owner };
}

/** A proposal as it is stored, but for who offers it. */
export function proposalCopy(proposal: Omit<Proposal, "id" | "from">): ProposalCopy {
  const { lane, words, bars, edits, chords } = proposal;
  return {
    ...{ lane, words, bars: [...bars], edits: edits.map(laneEditCopy) },
    ...(chords === undefined || chords.size === 0 ? {} : { chords: Object.fromEntries(chords) }),
  };
}

function singersCopy(singers: Singers): SongCopy["singers"] {
  const rounds = [...singers].map(
    ([entry, voices]) => [entry, voices.map((voice) => voice ?? null)] as const,
  );
  return Object.fromEntries(rounds);
}

function byItsId<T extends { readonly id: string }, C>(
  things: readonly T[],
  copy: (thing: T) => C,
): Readonly<Record<string, C>> {
  return Object.fromEntries(things.map((thing) => [thing.id, copy(thing)]));
}

const pitch = wholeIn(0, midiNoteMax);

const voiceShape = objectOf<VoiceCopy>({
  name: lineOf(limits.nameMax),
  lane: maybe(oneOf(laneIds)),
  type: maybe(oneOf(voiceTypes)),
  low: maybe(pitch),
  high: maybe(pitch),
});

const phraseShape = objectOf<PhraseCopy>({
  bar: contentId,
  start: wholeIn(0, limits.spanMax),
  length: wholeIn(1, limits.spanMax),
  melody: listOf(
    objectOf<SungNoteCopy>({
      start: wholeIn(0, limits.spanMax),
      length: wholeIn(1, limits.spanMax),
      pitch,
    }),
    limits.sungNotesMax,
  ),
});

const gapOwnerShape = objectOf<GapOwnerCopy>({
  bar: contentId,
  at: wholeIn(0, limits.spanMax),
  owner: oneOf([...laneIds, "both", "open"] as const),
});

const proposalShape = objectOf<ProposalCopy>({
  lane: oneOf(laneIds),
  words: lineOf(limits.reasonMax),
  bars: listOf(contentId, limits.barsMax),
  edits: listOf(laneEditShape, limits.proposalEditsMax),
  chords: maybe(tableOf(isContentId, lineOf(limits.chordTextMax), limits.proposalEditsMax)),
});

const singer: Decode<string | null> = (value, path) =>
  value === null ? { ok: true, value: null } : storedId(value, path);

/** The fields of a song, for the shape of the copy. */
export const songShapes: { readonly [K in keyof SongCopy]: Decode<SongCopy[K]> } = {
  voices: tableOf(isStoredId, voiceShape, limits.voicesMax),
  phrases: tableOf(isStoredId, phraseShape, limits.phrasesMax),
  gapOwners: tableOf(isStoredId, gapOwnerShape, limits.gapOwnersMax),
  singers: tableOf(isContentId, listOf(singer, limits.timesMax), limits.laneEntriesMax),
  aims: tableOf(isContentId, listOf(oneOf(barAims), barAims.length), limits.laneEntriesMax),
  barRounds: tableOf(
    isContentId,
    listOf(wholeIn(1, limits.timesMax), limits.timesMax),
    limits.laneEntriesMax,
  ),
  limits: tableOf(isLimitName, numberIn(-Number.MAX_VALUE, Number.MAX_VALUE), limits.ownLimitsMax),
  proposals: tableOf(isStoredId, proposalShape, limits.proposalsMax),
};
