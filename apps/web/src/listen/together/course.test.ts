/** The course comes as the timeline does: repeats, endings, borrowed sections and odd bars. */
import type { Board } from "@halflap/board/board";
import { draftCopy, parseChartText } from "@halflap/board/chart-text";
import { fillDocuments } from "@halflap/board/copy";
import { emptyDocuments } from "@halflap/board/documents";
import { makeReader } from "@halflap/board/read";
import { timelineOf } from "@halflap/timeline/passages";
import { expect, test } from "vitest";
import { orderOfPlay } from "../order-of-play.ts";
import { board as demo } from "../test-support/rehearsal.ts";
import { courseOf, isSameCourse } from "./course.ts";

function charted(text: string): Board {
  const { draft } = parseChartText(text);
  if (draft === undefined) throw new Error("the chart can't be read");
  const documents = emptyDocuments();
  let made = 0;
  const makeId = () => {
    made += 1;
    return `id${made}`;
  };
  fillDocuments(documents, draftCopy(draft, makeId));
  return makeReader(documents)();
}

const waltz = charted(`Bb, 90, 6/8

Verse
|: Bb6 | 2/4 G7 | Cm7 | F7 :| x2

Solo = Verse

Outro
| Bb6 | % |

Form: Verse x2, Solo
`);

test.each([
  ["the demo tune", demo],
  ["odd bars and a borrowed section", waltz],
  ["endings", withEndings(demo)],
])("%s", (_what, board) => {
  const bars = orderOfPlay(timelineOf(board)).map(({ strokes, ...bar }) => bar);
  expect(bars.length).toBeGreaterThan(3);
  expect(courseOf(board, undefined).bars).toEqual(bars);
});

test("a section outside of the form has a course while it goes round", () => {
  const outro = waltz.sections.find(({ name }) => name === "Outro");
  if (!outro) throw new Error("no outro");
  const loop = { kind: "section", section: outro.id } as const;
  expect(courseOf(waltz, undefined).bars.some(({ section }) => section === outro.id)).toBe(false);
  expect(courseOf(waltz, loop).bars.map(({ bar }) => bar)).toEqual(outro.bars.map(({ id }) => id));
});

test("a beat of 6/8 is three eighths", () => {
  // 90 beats a minute, 72 ticks each.
  expect(courseOf(waltz, undefined).msPerTick).toBeCloseTo(60_000 / 90 / 72, 9);
});

test("another tempo and another bar are another course; the same again is the same", () => {
  const course = courseOf(demo, undefined);
  expect(isSameCourse(course, courseOf({ ...demo }, undefined))).toBe(true);
  expect(isSameCourse(course, courseOf({ ...demo, tempo: demo.tempo + 1 }, undefined))).toBe(false);
  expect(isSameCourse(course, courseOf(withEndings(demo), undefined))).toBe(false);
});

/** The last bar of every section is played in the first round only. */
function withEndings(board: Board): Board {
  const sections = board.sections.map((section) => ({
    ...section,
    bars: section.bars.map((bar, index) =>
      index === section.bars.length - 1 ? { ...bar, rounds: [1] } : bar,
    ),
  }));
  const form = board.form.map((entry) => ({ ...entry, times: 2 }));
  return { ...board, sections, form };
}
