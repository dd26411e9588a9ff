/** Strum patterns that lock with the other lane: what they are, and what holds of all of them. */
import type { Board, Lane, LaneId, SectionId } from "@halflap/board/board";
import { demoDraft, demoSolution } from "@halflap/board/demo";
import { editedBoard } from "@halflap/board/edited-board";
import { strumId } from "@halflap/board/ids";
import { barLengthOf } from "@halflap/board/meter";
import type { LaneEdit } from "@halflap/board/proposal";
import { printSteps } from "@halflap/board/strum-text";
import { check, makeChecker } from "@halflap/checker/check";
import { type Finding, type RuleId, severities } from "@halflap/checker/finding";
import { type StrumIdea, strumIdeas } from "@halflap/fitter/interlock";
import { assert } from "@halflap/theory/units";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { boardOfCopy } from "./support/copies.ts";
import { copyOfPassage, type Passage } from "./support/passages/passage.ts";
import { randomPassage } from "./support/passages/random-passages.ts";

const rhythmRules: readonly RuleId[] = ["R18", "R20", "R21", "R22"];

/** Passages write their patterns bar by bar; here they are set for the lane, free to be changed. */
function freed(board: Board): Board {
  const free = (lane: Lane): Lane => {
    const [first] = lane.strumming.bars.values();
    return { ...lane, strumming: { ...lane.strumming, lane: first, bars: new Map() } };
  };
  const { upper, lower } = board.lanes;
  return { ...board, lanes: { upper: free(upper), lower: free(lower) } };
}

function sectionOf(board: Board, index = 0): SectionId {
  const section = board.sections[index];
  assert(section !== undefined, "a section");
  return section.id;
}

/** The board once the idea was taken for the section. */
function taken(board: Board, lane: LaneId, section: SectionId, { strum }: StrumIdea): Board {
  const id = strumId("taken");
  const edits: readonly LaneEdit[] = [
    { kind: "strum", strum: { ...strum, id } },
    { kind: "strum-at", place: { kind: "section", section }, strum: id },
  ];
  return editedBoard(board, lane, edits);
}

/** How grave each rule about rhythm is in each bar, by "R18 bar". */
function gravity(findings: readonly Finding[]): ReadonlyMap<string, number> {
  const grave = new Map<string, number>();
  const stands = ({ rule, isPraise, silenced }: Finding) =>
    rhythmRules.includes(rule) && !isPraise && silenced === undefined;
  for (const { rule, severity, bars } of findings.filter(stands)) {
    for (const bar of bars) {
      const rank = severities.length - severities.indexOf(severity);
      grave.set(`${rule} ${bar}`, Math.max(rank, grave.get(`${rule} ${bar}`) ?? 0));
    }
  }
  return grave;
}

function texts(ideas: readonly StrumIdea[]): readonly string[] {
  return ideas.map(({ strum }) => printSteps(strum.steps));
}

const grips = {
  upper: "x-x-x-9-10-8 | x-x-x-7-8-7 | x-x-x-10-10-8 | x-x-x-9-8-7",
  lower: "x-x-7-5-x-x | x-x-5-7-x-x | x-x-3-2-x-x | x-x-2-0-x-x",
};

/** Four bars in which the lower lane strums something, and the upper lane something or nothing. */
function four(lower: string | undefined, more: Partial<Passage> = {}, upper?: string): Board {
  const passage: Passage = {
    name: "four bars",
    chart: "Four\nA minor, 96\n| Am | G | F | Em |",
    upper: { grips: grips.upper, ...(upper === undefined ? {} : { strum: upper }) },
    lower: { grips: grips.lower, ...(lower === undefined ? {} : { strum: lower }) },
    expected: [],
    ...more,
  };
  return freed(boardOfCopy(copyOfPassage(passage)));
}

const ideasFor = (board: Board, lane: LaneId = "upper") =>
  strumIdeas(board, lane, sectionOf(board));

// Which rhythms answer which: common practice, no source.
describe("ideas for a section", () => {
  test("off-beats come first between quarters, and say what they make", () => {
    const [first] = ideasFor(four("D.D.D.D."));
    expect(first && printSteps(first.strum.steps)).toBe(".U.U.U.U");
    expect(first).toMatchObject({ shared: 0, covered: 1, density: 1 });
    expect(first?.words).toBe(
      "Off-beats between the lower lane's quarters: nothing together, every eighth filled.",
    );
  });

  test("quarters come first under off-beats, with weight on two and four", () => {
    expect(texts(ideasFor(four(".U.U.U.U")))[0]).toBe("D>DD>D");
  });

  test("the checker praises the first of them over all bars", () => {
    const board = four("D.D.D.D.");
    const [first] = ideasFor(board);
    const after = first === undefined ? board : taken(board, "upper", sectionOf(board), first);
    const praise = check(after).filter(({ isPraise }) => isPraise);
    expect(praise).toMatchObject([{ rule: "R19", bars: sectionBars(after) }]);
  });

  test("none is merely covered by the other, nor leaves the bars open", () => {
    // As R19 has it: at most a third of all strokes and half of the thinner part's in common.
    const ideas = ideasFor(four("D.DU.UDU", {}, "D.DU.UDU"));
    expect(ideas.length).toBeGreaterThan(2);
    for (const idea of ideas) {
      expect(idea.shared).toBeLessThanOrEqual(1 / 3);
      expect(idea.covered).toBeGreaterThanOrEqual(1 / 2);
      expect(idea.words).toMatch(/(between|around) the lower/i);
    }
  });

  test("two that strum every sixteenth are answered by few strokes, chops among them", () => {
    const all = "DUDUDUDUDUDUDUDU";
    const ideas = ideasFor(four(all, {}, all));
    for (const { density } of ideas) expect(density).toBeLessThanOrEqual(1);
    expect(texts(ideas)).toContain("..Dx..Dx");
  });

  test("the same board gets the same ideas", () => {
    const board = four("D.DU.UDU", {}, "D.D..UDU");
    expect(ideasFor(board)).toEqual(ideasFor(board));
  });

  test("a held chord is taken as struck once a slot", () => {
    const ideas = ideasFor(four(undefined));
    expect(ideas.length).toBeGreaterThan(2);
    expect(ideas[0]?.words).toContain("the lower lane's held chords");
    expect(ideas[0]?.shared).toBe(0);
  });

  test("they are near as full as what is strummed now, and not the same", () => {
    const ideas = ideasFor(four("D.D.D.D.", {}, "..D...D."));
    expect(texts(ideas)).not.toContain("..D...D.");
    expect(ideas[0]?.density).toBeLessThanOrEqual(1);
    const full = ideasFor(four("D.D.D.D.", {}, "D.DUDUDU"));
    expect(full[0]?.density).toBeGreaterThanOrEqual(1);
  });

  test("swing stays swing: sixteenths come only where they are strummed already", () => {
    const chart = "Four\nA minor, 96, swing\n| Am | G | F | Em |";
    const ideas = ideasFor(four("D.D.D.D.", { chart }));
    expect(ideas.every(({ strum }) => strum.step !== 12 && strum.feel === "board")).toBe(true);
    const upper = { grips: grips.upper, strum: "D.......", feel: "straight" } as const;
    const straight = four("D.D.D.D.", { chart, upper });
    expect(ideasFor(straight).every(({ strum }) => strum.feel === "straight")).toBe(true);
  });

  test("no more strokes than the arm can play at this tempo", () => {
    const chart = "Four\nA minor, 220\n| Am | G | F | Em |";
    const ideas = ideasFor(four("D.......", { chart }));
    // A sixteenth at 220 is 68 ms: beyond what is kept in time (Repp 2003: 100 to 125 ms).
    expect(Math.min(...ideas.map(({ strum }) => strum.step))).toBe(24);
  });

  test("whoever sings keeps a simple beat", () => {
    const sung = [[1, 1, 4] as const, [2, 1, 4] as const, [3, 1, 4] as const];
    const singing = { singer: { type: "alto", lane: "upper" }, sung } as const;
    const busy = ideasFor(four("D.......", {}, "D.DUDUDU"));
    const ideas = ideasFor(four("D.......", singing, "D.DUDUDU"));
    expect(ideas.length).toBeGreaterThan(0);
    // R28 looks from 1.5 strokes a beat on.
    for (const { density, words } of ideas) {
      expect(density).toBeLessThan(1.5);
      expect(words).toContain("easy to sing over");
    }
    expect(busy.some(({ density }) => density >= 1.5)).toBe(true);
  });

  test.each([
    ["3/4", "D.D.D."],
    ["6/8", "D..D.."],
    ["5/4", "D...D.D..."],
  ])("bars of %s are filled", (meter, lower) => {
    const chart = `Four\nA minor, 60, ${meter}\n| Am | G | F | Em |`;
    const board = four(lower, { chart });
    const ideas = ideasFor(board);
    expect(ideas.length).toBeGreaterThan(3);
    for (const { strum } of ideas) {
      expect(strum.step * strum.steps.length).toBe(barLengthOf(board.meter));
    }
    expect(ideas[0]?.covered).toBeGreaterThanOrEqual(0.8);
    expect(ideas[0]?.shared).toBe(0);
  });

  test("fills of both lanes are respected: what falls in them is not compared", () => {
    const fills = [[1, 3, 2, "3 2:1 4 2:3"]] as const;
    const lower = { grips: grips.lower, strum: "D.D.D.D.", fills };
    const board = four(undefined, { lower });
    const offBeats = ideasFor(board).find(({ strum }) => printSteps(strum.steps) === ".U.U.U.U");
    expect(offBeats).toMatchObject({ shared: 0, covered: 1 });
  });
});

function sectionBars(board: Board): readonly string[] {
  return board.sections[0]?.bars.map(({ id }) => id) ?? [];
}

describe("where there is nothing to offer", () => {
  test("bars with patterns of their own, and bars of rest, leave nothing", () => {
    const passage = copyOfPassage({
      name: "own",
      chart: "Four\nA minor, 96\n| Am | G | F | Em |",
      upper: { grips: grips.upper, strum: "D...D..." },
      lower: { grips: grips.lower, strum: "D.D.D.D." },
      expected: [],
    });
    expect(ideasFor(boardOfCopy(passage))).toEqual([]);
    const resting = four("D.D.D.D.", { upper: { grips: grips.upper, rests: [1, 2, 3, 4] } });
    expect(ideasFor(resting)).toEqual([]);
  });

  test("a section that is not there leaves nothing", () => {
    const board = four("D.D.D.D.");
    expect(strumIdeas({ ...board, sections: [] }, "upper", sectionOf(board))).toEqual([]);
  });
});

const everywhere = [demoDraft(), demoSolution()]
  .map(boardOfCopy)
  .flatMap((board) =>
    board.sections.flatMap(({ id, name }) =>
      (["upper", "lower"] as const).map((lane) => [`${name} ${lane}`, board, lane, id] as const),
    ),
  );

/** What holds of every idea, measured from nothing. */
function expectHonest(board: Board, lane: LaneId, section: SectionId): number {
  const ideas = strumIdeas(board, lane, section);
  expect(ideas.length).toBeLessThanOrEqual(8);
  expect(new Set(texts(ideas)).size).toBe(ideas.length);
  const checker = makeChecker();
  const before = gravity(checker(board));
  for (const idea of ideas) {
    const after = gravity(checker(taken(board, lane, section, idea), "try"));
    for (const [place, rank] of after) {
      expect(rank, place).toBeLessThanOrEqual(before.get(place) ?? 0);
    }
    for (const share of [idea.shared, idea.covered]) {
      expect(share).toBeGreaterThanOrEqual(0);
      expect(share).toBeLessThanOrEqual(1);
    }
    expect(idea.words).toMatch(/^[A-Z].*: .*\.$/);
    expect(idea.words).not.toMatch(/undefined|NaN|\d\.\d{3}/);
    expect(idea.strum.name).not.toBe("");
  }
  return ideas.length;
}

describe("no idea makes it worse", () => {
  // What locks by number alone is flagged here: strokes on most beats of both; swung eighths
  // so near to swung sixteenths that they are heard as one stroke played badly.
  test.each<[RuleId, string, string, string]>([
    ["R18", "C, 177, 3/4", "DUDUDU", "DUDUDU"],
    ["R20", "A minor, 318, swing", "D.D.D.D.", "D..U....D..U...."],
  ])("%s is not risked", (rule, heading, strum, other) => {
    const board = four(undefined, {
      chart: `Four\n${heading}\n| Am | G | F | Em |`,
      upper: { grips: grips.upper, strum },
      lower: { grips: grips.lower, strum: other },
    });
    expect(expectHonest(board, "upper", sectionOf(board))).toBeGreaterThan(0);
    for (const idea of ideasFor(board)) {
      const found = check(taken(board, "upper", sectionOf(board), idea));
      expect(found.filter((each) => each.rule === rule)).toEqual([]);
    }
  });

  test.each(everywhere)("in the demo tune: %s", (_, board, lane, section) => {
    expectHonest(board, lane, section);
  });

  test("the draft has ideas for every section and lane", () => {
    const draft = boardOfCopy(demoDraft());
    for (const { id } of draft.sections) {
      for (const lane of ["upper", "lower"] as const) {
        expect(strumIdeas(draft, lane, id).length, `${id} ${lane}`).toBeGreaterThan(3);
      }
    }
  });

  test("in random passages", () => {
    let offered = 0;
    const board = randomPassage.map((passage) => freed(boardOfCopy(copyOfPassage(passage))));
    fc.assert(
      fc.property(board, fc.constantFrom("upper" as const, "lower" as const), (each, lane) => {
        for (const { id } of each.sections) offered += expectHonest(each, lane, id);
      }),
      { numRuns: 12 },
    );
    expect(offered).toBeGreaterThan(30);
  });
});
