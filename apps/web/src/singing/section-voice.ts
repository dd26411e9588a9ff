/** What the voice does in the section around a bar: phrases, gaps and rounds, as they change. */
import type { BarId, FormEntry, Section } from "@halflap/board/board";
import { beatOf } from "@halflap/board/meter";
import type { GapOwner } from "@halflap/board/singing";
import { type Ticks, ticks } from "@halflap/theory/units";
import { gapsOf, sungOf } from "@halflap/timeline/singing";
import type { Gap, Sung } from "@halflap/timeline/timeline";
import { createMemo } from "solid-js";
import type { Desk } from "../board/desk.ts";
import { startsOf } from "./sung-cells.ts";

/** One round of a form entry that plays the section. */
export type SungRound = {
  readonly entry: FormEntry;
  /** From 0. */
  readonly index: number;
};

export type SectionVoice = {
  readonly section: () => Section | undefined;
  readonly beat: () => Ticks;
  readonly sung: () => readonly Sung[];
  readonly gaps: () => readonly Gap[];
  readonly rounds: () => readonly SungRound[];
  /** Says whose the gap is; undefined takes the word back. */
  readonly giveGap: (gap: Gap, owner: GapOwner["owner"] | undefined) => void;
};

/** Follows the board. */
export function createSectionVoice(desk: Desk, bar: () => BarId): SectionVoice {
  const board = desk.session.board;
  const section = createMemo(() =>
    board.sections.find((each) => each.bars.some(({ id }) => id === bar())),
  );
  const bars = () => section()?.bars ?? [];
  const placed = createMemo(() => {
    const starts = startsOf(bars());
    return bars().map((each) => ({ bar: each, start: ticks(starts.get(each.id) ?? 0) }));
  });
  const whole = () => ticks(bars().reduce((sum, each) => sum + each.length, 0));
  const sung = createMemo(() => sungOf(board.phrases, placed(), undefined));
  const gaps = createMemo(() => gapsOf(sung(), whole(), board.gapOwners, placed()));
  const rounds = createMemo(() =>
    board.form
      .filter((entry) => entry.section === section()?.id)
      .flatMap((entry) =>
        Array.from({ length: entry.times }, (_, index): SungRound => ({ entry, index })),
      ),
  );
  const placeOf = (at: number) => {
    const here = placed()
      .filter((each) => each.start <= at)
      .at(-1);
    return here && { bar: here.bar.id, at: ticks(at - here.start) };
  };
  return {
    section,
    beat: () => beatOf(board.meter),
    sung,
    gaps,
    rounds,
    giveGap(gap, owner) {
      const within = board.gapOwners.filter((each) => {
        const from = placed().find(({ bar: one }) => one.id === each.bar)?.start;
        return from !== undefined && from + each.at >= gap.start && from + each.at < gap.end;
      });
      const place = placeOf(gap.start);
      const [first, ...others] = within;
      for (const each of others) desk.session.singing.setGapOwner(each, undefined);
      const at = first ?? place;
      if (at !== undefined) desk.session.singing.setGapOwner({ bar: at.bar, at: at.at }, owner);
    },
  };
}
