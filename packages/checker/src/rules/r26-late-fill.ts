/** R26: a fill runs into what comes after its gap. */
import { laneIds } from "@halflap/board/board";
import { type Ticks, ticks } from "@halflap/theory/units";
import type { Gap } from "@halflap/timeline/timeline";
import {
  type Figure,
  fillsOf,
  longestByStart,
  meeting,
  notesOfFigure,
  segmentsUnder,
} from "../figures.ts";
import type { Hit, PassageRule } from "../hit.ts";
import { exceeds } from "../thresholds.ts";
import type { CheckedPassage, Tune } from "../tune.ts";
import { sentence } from "../words.ts";
import { isOverVoice } from "./r24-fill-over-voice.ts";

/** A hit for every fill whose last note is struck when its gap is all but over. */
export const lateFill: PassageRule = (passage, tune) => {
  const { sung, gaps } = passage.passage;
  if (gaps.length === 0) return [];
  return laneIds.flatMap((lane) =>
    longestByStart(fillsOf(passage, lane))
      .filter((fill) => !isOverVoice(fill, sung, tune))
      .flatMap((fill) => hitOf(passage, fill, tune)),
  );
};

function hitOf(passage: CheckedPassage, figure: Figure, tune: Tune): readonly Hit[] {
  const gap = gapOf(figure, passage.passage.gaps);
  const last = notesOfFigure(passage, figure).at(-1);
  if (gap === undefined || last === undefined || isLast(passage, gap)) return [];
  const room = (gap.end - last.sounds) / tune.beat;
  if (!exceeds(tune.limits.fillLate, room)) return [];
  const player = sentence(tune.players[figure.lane]);
  const what =
    gap.end < passage.passage.length ? "the voice comes in" : "the next part of the tune begins";
  return [
    {
      rule: "R26",
      severity: "look",
      lanes: [figure.lane],
      segments: segmentsUnder(passage, figure),
      span: { start: figure.start, end: figure.end },
      notes: last.attack.notes.map(({ pitch }) => ({
        lane: figure.lane,
        slot: last.attack.slot,
        pitch,
      })),
      measured: room,
      threshold: tune.limits.fillLate,
      words: `${player}'s last note comes right as ${what}: end the fill earlier.`,
    },
  ];
}

/** The gap in which most of the fill lies; the earlier of two alike. */
function gapOf(figure: Figure, gaps: readonly Gap[]): Gap | undefined {
  let found: Gap | undefined;
  let most: Ticks = ticks(0);
  for (const gap of gaps) {
    const shared = meeting(figure, gap);
    if (shared === undefined || shared.end - shared.start <= most) continue;
    found = gap;
    most = ticks(shared.end - shared.start);
  }
  return found;
}

/** Nothing comes after the end of the tune. */
function isLast({ passage }: CheckedPassage, gap: Gap): boolean {
  return gap.end === passage.length && passage.endsTune;
}
