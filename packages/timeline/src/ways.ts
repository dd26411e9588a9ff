/** In which different ways each section is played through the form. */
import { barsInRound } from "@halflap/board/bars-played";
import {
  type Bar,
  type Board,
  type FormEntry,
  laneIds,
  type Section,
  type SectionId,
  type Slot,
} from "@halflap/board/board";
import type { Voice } from "@halflap/board/singing";

/** One way of playing a section, before its bars are worked out. */
export type Way = {
  readonly id: string;
  readonly section: Section;
  readonly bars: readonly Bar[];
  readonly singer: Voice | undefined;
  readonly isSung: boolean;
  readonly entry: FormEntry | undefined;
  readonly next: readonly SectionId[];
  /** The slot that a push at its end sounds: of what follows it first. */
  readonly after: Slot | undefined;
};

type Played = {
  readonly section: Section;
  /** undefined for a section outside the form. */
  readonly entry: FormEntry | undefined;
  readonly round: number;
};

/** One round of a form entry, and the way it is played. */
export type Round = { readonly way: Way; readonly entry: FormEntry; readonly round: number };

/** Every round of every form entry, in the order played. */
export function roundsOf(board: Board): readonly Round[] {
  const sections = new Map(board.sections.map((section) => [section.id, section]));
  const plain = board.form.flatMap((entry) => {
    const section = sections.get(entry.section);
    if (section === undefined) return [];
    return Array.from({ length: entry.times }, (_, index) => ({
      section,
      entry,
      round: index + 1,
    }));
  });
  const rounds: Round[] = [];
  let next: Played | undefined;
  for (const played of plain.reverse()) {
    const way = wayOf(board, played, next);
    rounds.push({ way, entry: played.entry, round: played.round });
    if (way.bars.length > 0) next = played;
  }
  return rounds.reverse();
}

/** How a section is played in one round, before the next one that has bars, if any. */
export function wayOf(
  board: Board,
  { section, entry, round }: Played,
  next: Played | undefined,
): Way {
  const bars = barsInRound(section, round);
  const singerId = entry?.singers[round - 1];
  const singer = board.voices.find((voice) => voice.id === singerId);
  const isNamed = board.form.some(
    (each) => each.section === section.id && each.singers.some((voice) => voice !== undefined),
  );
  const apart = [
    bars.length === section.bars.length ? "" : bars.map((bar) => bar.number).join("."),
    singer?.id ?? "",
    ...laneIds.map((id) => {
      const lane = board.lanes[id];
      if (entry === undefined) return "";
      return lane.restingPasses.has(entry.id)
        ? "~rests"
        : (lane.strumming.passes.get(entry.id) ?? "");
    }),
  ];
  return {
    id: [section.id, ...apart].join("|"),
    section,
    bars,
    singer,
    isSung: singer !== undefined || !isNamed,
    entry,
    next: next === undefined ? [] : [next.section.id],
    after: next && barsInRound(next.section, next.round)[0]?.slots[0],
  };
}
