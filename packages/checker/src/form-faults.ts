/** What is amiss in the form of a tune: how it begins and ends, and rounds that do not close. */
import type { Board, FormEntry, Section } from "@halflap/board/board";
import { barLengthOf } from "@halflap/board/meter";
import type { Severity } from "./finding.ts";
import type { Segment } from "./segments.ts";
import type { CheckedPassage, PreparedBoard } from "./tune.ts";
import { counted } from "./words.ts";

/** One fault, and the slot at which it is told. */
export type FormFault = {
  readonly passage: CheckedPassage;
  readonly segment: Segment;
  readonly severity: Severity;
  readonly measured: number;
  readonly threshold: number;
  /** To stand between semicolons. */
  readonly words: string;
};

/** All faults of the form; of count-in and ending only once somebody has chosen a grip. */
export function formFaults(prepared: PreparedBoard, board: Board): readonly FormFault[] {
  return [...endsOfTune(prepared, board), ...roundFaults(prepared, board)];
}

function endsOfTune(prepared: PreparedBoard, board: Board): readonly FormFault[] {
  const rounds = roundsWithBars(board);
  const [opening, closing] = [rounds[0], rounds.at(-1)];
  const first = opening && passageOf(prepared, board, opening.entry, opening.round);
  const last = closing && passageOf(prepared, board, closing.entry, closing.round);
  const [start, end] = [first?.segments[0], last?.segments.at(-1)];
  if (!first || !last || !start || !end) return [];
  const faults: FormFault[] = [];
  const atStart = { passage: first, segment: start, severity: "look" } as const;
  const beats = (length: number) => length / prepared.tune.beat;
  const full = barLengthOf(board.meter);
  const hasParts = board.lanes.upper.grips.size + board.lanes.lower.grips.size > 0;
  if (hasParts && board.countIn === 0) {
    const words = "nobody counts in: agree who gives the first bar";
    faults.push({ ...atStart, measured: 0, threshold: 1, words });
  }
  const pickup = start.bar.length;
  if (pickup < full && start.bar !== end.bar && pickup + end.bar.length !== full) {
    const words =
      end.bar.length === full
        ? "the tune starts with a pickup, but its last bar is full: take the pickup off it"
        : "the pickup and the last bar do not make one bar: let them add up to one";
    faults.push({ ...atStart, measured: beats(pickup), threshold: beats(full), words });
  }
  if (hasParts && board.ending === "") {
    const words = "how the tune ends is not agreed: say who cues it, and whether it rings";
    faults.push({
      ...{ passage: last, segment: end, severity: "note" },
      ...{ measured: 0, threshold: 1, words },
    });
  }
  return faults;
}

/** In the order played; a round without bars begins and ends nothing. */
function roundsWithBars({ form, sections }: Board) {
  return form.flatMap((entry) => {
    const section = sections.find(({ id }) => id === entry.section);
    const rounds = Array.from({ length: entry.times }, (_, index) => index + 1);
    return rounds
      .filter((round) => section !== undefined && barsIn(section, round).length > 0)
      .map((round) => ({ entry, round }));
  });
}

/** The first round of each section with no bar to play, and the first without its own ending. */
function roundFaults(prepared: PreparedBoard, board: Board): readonly FormFault[] {
  return board.sections.flatMap((section) => {
    const entries = board.form.filter((entry) => entry.section === section.id);
    if (section.bars.every(({ rounds }) => rounds === undefined)) return [];
    const times = Math.max(0, ...entries.map((entry) => entry.times));
    const rounds = Array.from({ length: times }, (_, index) => index + 1);
    const empty = rounds.find((round) => barsIn(section, round).length === 0);
    const open = rounds.find((round) => round !== empty && !hasEnding(section, round));
    const faults = [
      { round: empty, words: "no bar to play" },
      { round: open, words: "no ending of its own" },
    ];
    return faults.flatMap(({ round, words }): readonly FormFault[] => {
      if (round === undefined) return [];
      const passage =
        entries
          .filter((entry) => entry.times >= round)
          .flatMap((entry) => passageOf(prepared, board, entry, round) ?? [])
          .find(({ segments }) => segments.length > 0) ?? nearest(prepared, section);
      const segment = passage?.segments.at(-1);
      if (passage === undefined || segment === undefined) return [];
      return [
        {
          ...{ passage, segment, severity: "look", measured: 0, threshold: 1 },
          words: `round ${counted(round)} of ${section.name} has ${words}`,
        },
      ];
    });
  });
}

/** Whether no ending is written, or one for this round. */
function hasEnding(section: Section, round: number): boolean {
  const body = section.bars.map(({ rounds }) => rounds).lastIndexOf(undefined);
  const endings = section.bars.slice(body + 1);
  return endings.length === 0 || endings.some(({ rounds }) => rounds?.includes(round));
}

function barsIn(section: Section, round: number): Section["bars"] {
  return section.bars.filter(({ rounds }) => rounds?.includes(round) ?? true);
}

/** One of the ways in which the round is played: those that differ have the same slots. */
function passageOf(
  { passages }: PreparedBoard,
  { sections }: Board,
  entry: FormEntry,
  round: number,
): CheckedPassage | undefined {
  const section = sections.find(({ id }) => id === entry.section);
  const bars = section === undefined ? [] : barsIn(section, round);
  return passages.find(
    (one) =>
      one.passage.section.id === entry.section &&
      one.bars.length === bars.length &&
      one.bars.every(({ played }, index) => played.bar.id === bars[index]?.id),
  );
}

/** A passage to tell it at: of the section, else any. */
function nearest({ passages }: PreparedBoard, section: Section): CheckedPassage | undefined {
  const sounding = passages.filter(({ segments }) => segments.length > 0);
  return sounding.find(({ passage }) => passage.section.id === section.id) ?? sounding[0];
}
