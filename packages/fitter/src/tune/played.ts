/** A board as it is played: its passages with how often each comes, and their bars in order. */
import type { Board } from "@halflap/board/board";
import {
  type CheckedBar,
  type CheckedPassage,
  type Frame,
  makePreparation,
  type Tune,
} from "@halflap/checker/tune";
import { timelineOf } from "@halflap/timeline/passages";

/** A bar of a pass and the one after it; past the end of the tune the first if it goes round. */
export type Step = { readonly bar: CheckedBar; readonly next: CheckedBar | undefined };

export type Played = {
  readonly tune: Tune;
  readonly frame: Frame;
  readonly passages: readonly { readonly passage: CheckedPassage; readonly times: number }[];
  /** Every different step from bar to bar, with its passage and how often it is taken. */
  readonly steps: readonly (Step & {
    readonly passage: CheckedPassage;
    readonly times: number;
  })[];
  /** Whether the last bar leads back to the first: no ending is agreed. */
  readonly goesRound: boolean;
};

/**
 * A board in the order of its form. A section outside the form counts once, and by itself. A tune
 * whose ending nobody agreed goes round.
 */
export function playedBoard(board: Board): Played {
  const timeline = timelineOf(board);
  const { tune, frame, passages } = makePreparation()(board, timeline);
  const byId = new Map(passages.map((each) => [each.passage.id, each]));
  const passes = timeline.passes.flatMap(({ passage }) => byId.get(passage.id) ?? []);
  const alone = passages.filter((each) => !passes.includes(each));
  const goesRound = board.ending === "" && passes.length > 0;
  const times = new Map<CheckedPassage, number>();
  for (const pass of [...passes, ...alone]) times.set(pass, (times.get(pass) ?? 0) + 1);
  const [first] = barsIn(passes);
  return {
    tune,
    frame,
    passages: passages.map((passage) => ({ passage, times: times.get(passage) ?? 0 })),
    steps: counted([
      ...stepsThrough(passes, goesRound ? first : undefined),
      ...alone.flatMap((passage) => stepsThrough([passage], undefined)),
    ]),
    goesRound,
  };
}

type TakenStep = Step & { readonly passage: CheckedPassage };

function stepsThrough(
  passes: readonly CheckedPassage[],
  afterLast: CheckedBar | undefined,
): readonly TakenStep[] {
  const bars = barsIn(passes);
  const owners = passes.flatMap((passage) => passage.bars.map(() => passage));
  return bars.flatMap((bar, index) => {
    const passage = owners[index];
    return passage === undefined ? [] : [{ bar, passage, next: bars[index + 1] ?? afterLast }];
  });
}

function barsIn(passes: readonly CheckedPassage[]): readonly CheckedBar[] {
  return passes.flatMap(({ bars }) => bars);
}

function counted(steps: readonly TakenStep[]): Played["steps"] {
  const byBar = new Map<CheckedBar, (TakenStep & { times: number })[]>();
  for (const step of steps) {
    const known = byBar.get(step.bar) ?? [];
    const same = known.find(({ next }) => next === step.next);
    if (same === undefined) known.push({ ...step, times: 1 });
    else same.times++;
    byBar.set(step.bar, known);
  }
  return [...byBar.values()].flat();
}
