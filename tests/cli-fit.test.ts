/** `halflap fit` as it is typed: the real program on real files. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { type Board, laneIds } from "@halflap/board/board";
import { type BoardCopy, decodeCopy } from "@halflap/board/copy";
import { demoDraft } from "@halflap/board/demo";
import type { FitRequest } from "@halflap/fitter/answer";
import { fit } from "@halflap/fitter/fit";
import { plainMinPlus } from "@halflap/fitter/plain-min-plus";
import { printGrip } from "@halflap/theory/grip";
import { afterAll, beforeAll, describe, expect, test, vi } from "vitest";
import { boardOfCopy } from "./support/copies.ts";
import { crookedPassages } from "./support/passages/crooked-passages.ts";
import { copyOfPassage } from "./support/passages/passage.ts";
import { runHalflap } from "./support/run-halflap.ts";

// Programs that start beside many others take their time.
vi.setConfig({ testTimeout: 180_000 });

let folder: string;

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "halflap-fit-"));
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

type Wishes = NonNullable<BoardCopy["lanes"]["upper"]["wishes"]>;

/** The draft under wishes that leave few grips, so that a fit is quick on any machine. */
function draft(lower: Partial<Wishes> = {}): BoardCopy {
  const copy = demoDraft();
  const few = { stringSets: ["4-3-2"], highestFret: 12 };
  const lanes = {
    upper: { ...copy.lanes.upper, wishes: { ...few, capo: 0 } },
    lower: { ...copy.lanes.lower, wishes: { ...few, ...lower } },
  };
  return { ...copy, lanes };
}

let files = 0;

function path(): string {
  files += 1;
  return join(folder, `${files}.json`);
}

function fileOf(copy: BoardCopy): string {
  const file = path();
  writeFileSync(file, JSON.stringify(copy));
  return file;
}

function gripsOf(board: Board): readonly string[] {
  return laneIds.flatMap((lane) =>
    [...board.lanes[lane].grips].map(([slot, grip]) => `${lane} ${slot} ${printGrip(grip)}`),
  );
}

type AnswerReport = {
  readonly id: string;
  readonly costs: { readonly total: number; readonly causes: readonly { cost: number }[] };
  readonly isProven: boolean;
  readonly count: Readonly<Record<string, number>>;
  readonly parts: readonly {
    readonly lane: string;
    readonly grips: readonly { bar: number; slot: string; chord: string; grip: string }[];
  }[];
};
type Report = {
  readonly answers: readonly AnswerReport[];
  readonly why: readonly { bar: number; lane: string; next: readonly { more: number }[] }[];
  readonly whole?: { readonly changes: readonly unknown[]; readonly left: number };
};

async function reportOf(args: readonly string[], input: string): Promise<Report> {
  const { out, err } = await runHalflap(["fit", "--json", ...args, "-"], input);
  expect(err).toBe("");
  return JSON.parse(out);
}

describe("halflap fit, as text", () => {
  test("tells costs by cause, what is left, the hardest bar, motion, grips by bar", async () => {
    const { exit, out, err } = await runHalflap(["fit", fileOf(draft()), "--answers", "2"]);
    expect([exit, err]).toEqual([1, ""]);
    expect(out).toMatch(/^Paper Ferry Home \(first draft\)\n\nBoth parts: little motion/);
    expect(out).toMatch(/\nThe board as it is costs [\d.]+: [a-z ]+ [\d.]+, /);
    expect(out).toMatch(/\nAnswer 1 costs [\d.]+: [a-z ]+ [\d.]+, /);
    expect(out).toMatch(/\n {2}proof {5}(nothing costs less|at most [\d.]+ less is possible)\n/);
    expect(out).toMatch(/\n {2}hardest {3}Bar \d+ \(.*\): .* It costs [\d.]+\.\n/);
    expect(out).toMatch(/\n {2}motion {4}upper \d+, lower \d+\n {2}capo {6}upper off\n/);
    expect(out).toMatch(/\n {2}findings {2}.*\d+ fixes, /);
    expect(out).toMatch(/\n {2}Chorus\n {3}13 {2}B♭7 {4}x(-[x\d]+){5}( \*)? +x(-[x\d]+){5}/);
    expect(out).toContain("\nAnswer 2 costs ");
    expect(out).toMatch(/\nEvery answer leaves:\n {2}(stop|fix ) {2}R\d\d {2}\w+, bars? \d+/);
  });

  test("--why tells the next best grips of a bar or of one of its chords", async () => {
    const args = ["fit", fileOf(draft()), "--lane", "lower", "--answers", "1", "--why"];
    const bar = await runHalflap([...args, "11"]);
    expect(bar.out).toMatch(
      /\nInstead of x-x.* at Dm7 in bar 11, lower part:\n {2}x-.* would cost/,
    );
    expect(bar.out).toContain(" at G7 in bar 11, lower part:\n");
    const chord = await runHalflap([...args, "11.2"]);
    expect(chord.out).not.toContain(" at Dm7 in bar 11");
    expect(chord.out).toContain(" at G7 in bar 11, lower part:\n");
  });
});

describe("halflap fit --json", () => {
  test("gives what the fitter gives on the plain sums, to the letter", async () => {
    const copy = draft();
    const board = boardOfCopy(copy);
    const request: FitRequest = {
      ...{ lanes: laneIds, leaning: "far apart", answers: 2, bars: undefined },
    };
    const result = fit(board, request, { minPlus: plainMinPlus });
    if (result.kind !== "answers") throw new Error(result.words);
    const args = ["--leaning", "far-apart", "--answers", "2"];
    const { answers } = await reportOf(args, JSON.stringify(copy));
    expect(answers.map(({ id }) => id)).toEqual(result.answers.map(({ id }) => id));
    expect(answers.map(({ costs }) => costs)).toEqual(result.answers.map(({ costs }) => costs));
    expect(answers.map(({ isProven }) => isProven)).toEqual(
      result.answers.map(({ bound, costs }) => bound >= costs.total),
    );
    const grips = answers.map(({ parts }) =>
      parts.flatMap(({ lane, grips }) => grips.map(({ slot, grip }) => `${lane} ${slot} ${grip}`)),
    );
    expect(grips.map((each) => [...each].sort())).toEqual(
      result.answers.map(({ parts }) =>
        parts
          .flatMap(({ lane, grips }) =>
            [...grips].map(([slot, grip]) => `${lane} ${slot} ${printGrip(grip)}`),
          )
          .sort(),
      ),
    );
  });

  test("--lane and --bars leave the rest alone; --why and --whole come along", async () => {
    const passage = crookedPassages.find(({ name }) => name === "two capos");
    if (passage === undefined) throw new Error("there is a passage with two capos");
    const args = ["--lane", "lower", "--bars", "2-3,7", "--answers", "1", "--why", "7", "--whole"];
    const { answers, why, whole } = await reportOf(args, JSON.stringify(copyOfPassage(passage)));
    const parts = answers.flatMap(({ parts }) => parts);
    expect(parts.map(({ lane }) => lane)).toEqual(["lower"]);
    expect(parts.flatMap(({ grips }) => grips.map(({ bar }) => bar))).toEqual([2, 3, 7]);
    expect(why.map(({ bar, lane }) => `${lane} ${bar}`)).toEqual(["lower 7"]);
    const more = why.flatMap(({ next }) => next.map((each) => each.more));
    expect(more.length).toBeGreaterThan(0);
    expect(more).toEqual([...more].sort((a, b) => a - b));
    expect(whole?.changes.length).toBeGreaterThan(0);
  });
});

describe("halflap fit --copy", () => {
  test("writes the answer that is taken, and check finds in it what fit told", async () => {
    const copy = draft();
    const out = path();
    const args = ["--answers", "2", "--take", "2", "--copy", out];
    const { answers } = await reportOf(args, JSON.stringify(copy));
    const taken = answers[1];
    const written = decodeCopy(JSON.parse(readFileSync(out, "utf8")));
    if (!written.ok || taken === undefined) throw new Error("a copy and two answers");
    const grips = taken.parts.flatMap(({ lane, grips }) =>
      grips.map(({ slot, grip }) => `${lane} ${slot} ${grip}`),
    );
    expect(gripsOf(boardOfCopy(written.value))).toEqual(expect.arrayContaining(grips));
    expect(written.value.sections).toEqual(copy.sections);
    const checked = await runHalflap(["check", "--json", out]);
    const { stop, fix, look, note } = taken.count;
    expect(JSON.parse(checked.out).count).toMatchObject({ stop, fix, look, note });
    expect(checked.exit).toBe(1);
  });

  test("with --whole holds what mends it too, and both end with 0", async () => {
    const out = path();
    const args = ["fit", fileOf(draft()), "--answers", "1", "--whole", "--copy", out];
    const fitted = await runHalflap(args);
    expect([fitted.exit, fitted.err]).toEqual([0, ""]);
    expect(fitted.out).toMatch(/\nBeside the grips of answer 1:\n {2}(upper|lower) {2}/);
    expect(fitted.out).toContain("\nNo stop and no fix is left.\n");
    expect((await runHalflap(["check", out])).exit).toBe(0);
  });

  test("leaves a file alone that is there already", async () => {
    const out = path();
    writeFileSync(out, "mine");
    const { exit, err } = await runHalflap(["fit", fileOf(draft()), "--copy", out]);
    expect(exit).toBe(2);
    expect(err).toBe(`${out} is there already: --copy writes a new file.\n`);
    expect(readFileSync(out, "utf8")).toBe("mine");
    const lost = await runHalflap(["fit", fileOf(draft()), "--copy", join(out, "x", "y")]);
    expect(lost.exit).toBe(2);
    expect(lost.err).toMatch(/can't be written: its folder is not there\.\n$/);
  });
});

describe("halflap fit refuses with 2 and a sentence", () => {
  test("wishes that can't hold together, named with the place that shows it", async () => {
    const file = fileOf(draft({ highestFret: 1, openStrings: false }));
    const { exit, out, err } = await runHalflap(["fit", file, "--lane", "lower"]);
    expect([exit, out]).toEqual([2, ""]);
    expect(err).toMatch(/^lower lane: .* in bar \d+ has no grip .*: let go of one/);
    const told = await runHalflap(["fit", "--json", file, "--lane", "lower"]);
    expect(told.exit).toBe(2);
    expect(JSON.parse(told.out)).toMatchObject({ kind: "impossible", lane: "lower" });
    expect(`lower lane: ${JSON.parse(told.out).words}\n`).toBe(told.err);
  });

  test("a part that is to stay as it is", async () => {
    const file = fileOf(draft({ leaveAsIs: true }));
    const { exit, err } = await runHalflap(["fit", file, "--lane", "lower"]);
    expect([exit, err]).toEqual([
      2,
      "The lower part is wished to stay as it is, so nothing may change.\n",
    ]);
  });

  test("a chart text", async () => {
    const { exit, err } = await runHalflap(["fit", "-"], "| F7 | C7 |\n");
    expect(exit).toBe(2);
    expect(err).toBe("The standard input is no JSON copy of a board, which is what fit needs.\n");
  });

  test.each<readonly [readonly string[], RegExp]>([
    [["--bars", "1-99"], /--bars has bar 99, but the bars of this chart are 1 to 32\./],
    [["--why", "33"], /--why has bar 33, but the bars of this chart are 1 to 32\./],
    [["--why", "9.2"], /--why 9\.2: bar 9 has one chord\./],
    [["--lane", "middle"], /--lane is upper, lower or both, not "middle"\.\nhalflap --help/],
  ])("%j", async (args, words) => {
    const { exit, out, err } = await runHalflap(["fit", ...args, "-"], JSON.stringify(draft()));
    expect([exit, out]).toEqual([2, ""]);
    expect(err).toMatch(words);
  });
});
