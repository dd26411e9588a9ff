/** In which different ways each section is played through the form. */
import { barsInRound } from "@halflap/board/bars-played";
import {
  type Bar,
  type BarId,
  type Board,
  type FormEntry,
  type Lane,
  laneIds,
  type Section,
  type SectionId,
  type Slot,
} from "@halflap/board/board";
import type { Strum } from "@halflap/board/playing";
import type { Voice } from "@halflap/board/singing";
import { stepsOf } from "./lane-bar.ts";

/** One way of playing a section, before its bars are worked out. */
export type Way = {
  readonly id: string;
  readonly section: Section;
  readonly bars: readonly Bar[];
  readonly singer: Voice | undefined;
  readonly isSung: boolean;
  readonly entry: FormEntry | undefined;
  readonly next: readonly SectionId[];
  /** The slot that a push at its end sounds. Ways without one share the first that follows. */
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
  const after = next && barsInRound(next.section, next.round)[0]?.slots[0];
  const place = { section, entry };
  const isPushed = laneIds.some((id) => pushesPast(board.lanes[id], place, bars.at(-1)));
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
    isPushed ? (after?.id ?? "") : "",
  ];
  return {
    id: [section.id, ...apart].join("|"),
    section,
    bars,
    singer,
    isSung: singer !== undefined || !isNamed,
    entry,
    next: next === undefined ? [] : [next.section.id],
    after,
  };
}

type Place = Pick<Way, "section" | "entry">;

/** The nearest pattern: the pass, then the bar, then the section, then the lane. */
export function strumOf(lane: Lane, { section, entry }: Place, bar: BarId): Strum | undefined {
  const { strumming } = lane;
  const id =
    (entry && strumming.passes.get(entry.id)) ??
    strumming.bars.get(bar) ??
    strumming.sections.get(section.id) ??
    strumming.lane;
  return id === undefined ? undefined : lane.strums.get(id);
}

/** Whether a lane strikes the slot that follows a bar before that bar is over. */
function pushesPast(lane: Lane, place: Place, bar: Bar | undefined): boolean {
  const last = bar?.slots.at(-1);
  if (bar === undefined || last === undefined || lane.layOuts.has(bar.id)) return false;
  if (place.entry !== undefined && lane.restingPasses.has(place.entry.id)) return false;
  const strum = strumOf(lane, place, bar.id);
  const isPush = (step: Strum["steps"][number]) => step.kind === "stroke" && step.push;
  if (strum?.steps.some(isPush) !== true) return false;
  return stepsOf({ bar, strum }).some(({ at, step }) => isPush(step) && at >= last.start);
}
