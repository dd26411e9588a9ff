/** Words about the voice: who sings, where, and who has the gaps. */
import type { LaneId } from "@halflap/board/board";
import type { GapOwner, VoiceType } from "@halflap/board/singing";

export const singingWords = {
  voice: "Voice",
  title: (section: string) => `Voice in ${section}`,
  open: (section: string) => `Voice in ${section}`,
  close: "Close",
  where: "Where it is sung",
  whereHint: "Press a half beat, or pull across several.",
  noneYet: "Nothing is marked as sung here.",
  barRow: (number: number) => `Bar ${number}`,
  cell: (bar: number, beat: number, isSecondHalf: boolean) =>
    `Bar ${bar}, beat ${beat}${isSecondHalf ? " and" : ""}`,
  and: "and",
  who: "Who sings",
  whoEach: (round: string) => `Who sings ${round}`,
  round: (section: string, number: number, of: number) =>
    of === 1 ? section : `${section}, ${number} of ${of}`,
  nobody: "nobody",
  notSaid: "not said",
  notInForm: "This section is not in the form.",
  voices: "The voices",
  name: "Name",
  isWho: "Is",
  somebodyElse: "somebody else",
  guitarist: { upper: "upper lane’s player", lower: "lower lane’s player" } satisfies Record<
    LaneId,
    string
  >,
  type: "Voice type",
  low: "Lowest note",
  high: "Highest note",
  badNote: "Write a note with its octave: C3. C4 is middle C.",
  badRange: "The highest note lies below the lowest.",
  remove: "Remove",
  removeVoice: (name: string) => `Remove ${name}`,
  addVoice: "Add a voice",
  newVoice: "Singer",
  gaps: "The gaps",
  gapsHint: "Agree who answers, so that nobody fills over the other.",
  noGaps: "No gaps: mark where the voice sings first.",
  gap: (from: string, to: string) => `${from} to ${to}`,
  place: (bar: number, beat: string) => `bar ${bar}, beat ${beat}`,
  sectionEnd: "the end",
  whoseGap: (from: string) => `Whose fill, from ${from}`,
  owner: {
    upper: "upper lane",
    lower: "lower lane",
    both: "both, together",
    open: "leave it open",
  } satisfies Record<GapOwner["owner"], string>,
  melody: "The melody",
  melodyHint: "If you like: beat and note, 1 F4 1.5 G4. Then a lane that doubles it is noticed.",
  phrase: (from: string) => `Phrase from ${from}`,
  sung: "sung",
  sungPart: "partly sung",
  free: "gap",
  readOnly: "Only players change this.",
} as const;

/** Voice types as they are said. */
export const voiceTypeWords: Readonly<Record<VoiceType, string>> = {
  soprano: "soprano",
  mezzo: "mezzo-soprano",
  alto: "alto",
  tenor: "tenor",
  baritone: "baritone",
  bass: "bass",
};
