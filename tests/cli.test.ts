/**
 * `halflap check` as it is typed: the real program on real files. What concerns stores is in
 * wire/.
 */
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { BoardCopy } from "@halflap/board/copy";
import { demoDraft, demoSolution } from "@halflap/board/demo";
import { ruleIds } from "@halflap/checker/finding";
import { afterAll, beforeAll, describe, expect, test, vi } from "vitest";
import { crookedPassages } from "./support/passages/crooked-passages.ts";
import { copyOfPassage } from "./support/passages/passage.ts";
import { quietPassages } from "./support/passages/quiet-passages.ts";
import { runHalflap } from "./support/run-halflap.ts";

vi.setConfig({ testTimeout: 30_000 });

let folder: string;

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "halflap-cli-"));
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

function fileWith(name: string, content: string | Uint8Array): string {
  const path = join(folder, name);
  writeFileSync(path, content);
  return path;
}

function copyFile(name: string, copy: unknown): string {
  return fileWith(name, JSON.stringify(copy));
}

/** What a report says of a finding and its ways out, as far as it is asked here. */
type FindingReport = {
  readonly id: string;
  readonly rule: string;
  readonly severity: string;
  readonly ways: readonly {
    readonly lane: string;
    readonly edits: readonly unknown[];
    readonly removes: readonly string[];
    readonly causes: readonly string[];
  }[];
};

function passageCopy(name: string): BoardCopy {
  const found = [...quietPassages, ...crookedPassages].find((passage) => passage.name === name);
  if (found === undefined) throw new Error(`there is no passage ${name}`);
  return copyOfPassage(found);
}

/** The draft with a silence of each rule over every bar. */
function silenced(copy: BoardCopy): BoardCopy {
  const own = copy.sections.flatMap(({ bars }) => bars.map(({ id }) => id));
  const borrowed = copy.sections.flatMap((section) => {
    const source = copy.sections.find(({ id }) => id === section.borrows);
    return (source?.bars ?? []).map(({ id }) => `${section.id}~${id}`);
  });
  const bars = [...own, ...borrowed];
  return {
    ...copy,
    silences: ruleIds.map((rule) => ({ id: `q${rule}`, rule, bars, reason: "old friends" })),
  };
}

describe("halflap check, of a JSON copy", () => {
  test("prints section, bars, severity, rule, words and notes, and ends with 1", async () => {
    const { exit, out, err } = await runHalflap(["check", copyFile("draft.json", demoDraft())]);
    expect([exit, err]).toEqual([1, ""]);
    expect(out).toMatch(/^Paper Ferry Home \(first draft\)\n/);
    expect(out).toContain("Verse, bars 5 to 12\n  fix   R01  For eight bars you two");
    expect(out).toMatch(
      /Verse, bar 9\n {2}stop {2}R14 .*A♭7.*\n {13}upper A♭2 E♭3 G♭3 C4 E♭4 A♭4\n/,
    );
    expect(out).toMatch(/\n\d+ stops, \d+ fixes, \d+ looks, \d+ notes\n$/);
  });

  test("spells notes as their chord does", async () => {
    const { out } = await runHalflap(["check", copyFile("draft.json", demoDraft())]);
    expect(out).toMatch(/F♯ is in both parts.*\n {13}upper F♯3; lower F♯4\n/);
  });

  test("ends with 0 when nothing is in the way", async () => {
    const ended = await runHalflap(["check", copyFile("finished.json", demoSolution())]);
    expect([ended.exit, ended.err]).toEqual([0, ""]);
    expect(ended.out).toContain("good  R19  For eight bars you two lock");
    expect(ended.out).not.toMatch(/^ {2}(stop|fix)/m);
    expect(ended.out).toMatch(/, 3 good\n$|\n3 good\n$/);
  });

  test("ends with 0 when every stop and fix is silenced, and still lists them", async () => {
    const file = copyFile("silenced.json", silenced(demoDraft()));
    const { exit, out } = await runHalflap(["check", file]);
    expect(exit).toBe(0);
    expect(out).toContain("stop  R14");
    expect(out).toContain("silenced: old friends");
    expect(out).toMatch(/\n\d+ silenced\n$/);
  });

  test("writes JSON for programs, from the standard input too", async () => {
    const { exit, out } = await runHalflap(["check", "--json", "-"], JSON.stringify(demoDraft()));
    const report = JSON.parse(out);
    expect(exit).toBe(1);
    expect(report.count).toMatchObject({ stop: 5, praise: 0, silenced: 0 });
    expect(report.findings[0]).toMatchObject({
      place: "Intro, bars 1 to 4",
      rule: "R01",
      severity: "fix",
      measured: 0.9375,
    });
  });

  test("--ways lists what could be done about each stop, fix and look, in its lane", async () => {
    const file = copyFile("capos.json", passageCopy("two capos"));
    const { exit, out, err } = await runHalflap(["check", "--ways", file]);
    expect([exit, err]).toEqual([1, ""]);
    const blocks = out.split("\n\n");
    const stop = blocks.find((block) => block.includes("stop  R14"));
    expect(stop).toMatch(/\n {13}way out, upper lane: .*\bbar 7\b/);
    expect(stop).not.toContain("way out, lower lane");
    const rest = blocks.filter((block) => /^ {2}(note|good)/m.test(block));
    expect(rest.length).toBeGreaterThan(1);
    expect(rest.join()).not.toContain("way out");
    const without = await runHalflap(["check", file]);
    expect(without.out).not.toContain("way out");
  });

  test("--ways --json gives the edits of each way, and what it removes and causes", async () => {
    const copy = JSON.stringify(passageCopy("two capos"));
    const { exit, out } = await runHalflap(["check", "--json", "--ways", "-"], copy);
    expect(exit).toBe(1);
    const findings: readonly FindingReport[] = JSON.parse(out).findings;
    const stop = findings.find(({ rule }) => rule === "R14");
    expect(stop?.ways.length).toBeGreaterThan(0);
    for (const { lane, edits, removes, causes } of stop?.ways ?? []) {
      expect(lane).toBe("upper");
      expect(edits.length).toBeGreaterThan(0);
      expect(removes).toContain(stop?.id);
      expect(causes).not.toContain(stop?.id);
    }
    const notes = findings.filter(({ severity }) => severity === "note");
    expect(notes.length).toBeGreaterThan(1);
    expect(notes.every(({ ways }) => ways.length === 0)).toBe(true);
  });

  test("checks what is written out from note to note, where no lane holds a grip", async () => {
    const { exit, out } = await runHalflap([
      "check",
      copyFile("f.json", passageCopy("fingerpicked")),
    ]);
    expect(exit).toBe(1);
    expect(out).toMatch(/Orchard Wall\n\n.*bar 2\n {2}fix {3}R10 /);
  });

  test("says so when no lane holds a grip", async () => {
    const copy = demoDraft();
    const upper = { ...copy.lanes.upper, grips: {}, fills: {} };
    const lower = { ...copy.lanes.lower, grips: {}, fills: {} };
    const file = copyFile("bare.json", { ...copy, lanes: { upper, lower } });
    const { exit, out } = await runHalflap(["check", file]);
    expect(exit).toBe(0);
    expect(out).toContain("nothing to check yet");
  });
});

describe("halflap check, of a chart text", () => {
  test.each(["| F7 | C7 . G7 . |\n", "[Verse]\n| F7 | C7 |\n", "[| F7 | C7 |]\n"])(
    "says that there are no grips to check: %j",
    async (chart) => {
      const { exit, out } = await runHalflap(["check", fileWith("chart.txt", chart)]);
      expect(exit).toBe(0);
      expect(out).toBe(
        "A chart of 2 bars that reads well. It holds no grips, so there is nothing to check yet.\n",
      );
    },
  );

  test("gives every problem its line and column, and ends with 2", async () => {
    const file = fileWith("wrong.txt", "Verse\n| F7 | Cq7 |\n| Xm | C7 |\n");
    const { exit, out, err } = await runHalflap(["check", file]);
    expect([exit, out]).toEqual([2, ""]);
    expect(err).toMatch(/wrong\.txt:2:8: "Cq7" .*C7/);
    expect(err).toMatch(/wrong\.txt:3:3: "Xm"/);
  });
});

describe("halflap refuses with 2 and a sentence", () => {
  const missing = "no-such-file.json";
  test.each<readonly [string, readonly string[], string, RegExp]>([
    ["an unknown command", ["chekc"], "", /no command "chekc"/],
    ["a missing file", ["check", missing], "", /no-such-file\.json is not there/],
    ["a folder", ["check", tmpdir()], "", /is a folder/],
    ["an empty input", ["check", "-"], " \n", /The standard input is empty/],
    ["broken JSON", ["check", "-"], '{"format": ', /no whole JSON/],
    ["another JSON", ["check", "-"], '{"name": "x"}', /no copy of a board: .*format|version/],
    ["a missing store", ["copy", "--store", missing], "", /no-such-file\.json is not there/],
  ])("%s", async (_, args, input, words) => {
    const { exit, out, err } = await runHalflap(args, input);
    expect([exit, out]).toEqual([2, ""]);
    expect(err).toMatch(words);
    expect(err).not.toMatch(/ {4}at /);
  });

  test("a copy with a fault, named by its path", async () => {
    const copy = demoDraft();
    const lower = { ...copy.lanes.lower, capo: 99 };
    const file = copyFile("capo.json", { ...copy, lanes: { ...copy.lanes, lower } });
    const { exit, err } = await runHalflap(["check", file]);
    expect(exit).toBe(2);
    expect(err).toContain("lanes.lower.capo");
  });

  test("a file above 5 MiB, and one that is no text", async () => {
    const large = await runHalflap([
      "check",
      fileWith("large.json", " ".repeat(5 * 1024 * 1024 + 1)),
    ]);
    expect(large).toMatchObject({ exit: 2, err: expect.stringContaining("larger than 5 MiB") });
    const binary = await runHalflap([
      "check",
      fileWith("binary", new Uint8Array([0xff, 0xfe, 0x00])),
    ]);
    expect(binary).toMatchObject({ exit: 2, err: expect.stringContaining("no text in UTF-8") });
  });

  test("a file of another kind as a store", async () => {
    const { exit, err } = await runHalflap([
      "copy",
      "--store",
      fileWith("x.txt", "| C |\n".repeat(99)),
    ]);
    expect(exit).toBe(2);
    expect(err).toMatch(/can't be read as a store/);
  });
});

describe("halflap", () => {
  test("--help names the commands, --version the version", async () => {
    const help = await runHalflap(["--help"]);
    expect(help.exit).toBe(0);
    expect(help.out).toMatch(/halflap check FILE[\s\S]*halflap copy --store STORE/);
    expect(await runHalflap(["--version"])).toMatchObject({
      exit: 0,
      out: expect.stringMatching(/^halflap \d+\.\d+\.\d+\n$/),
    });
  });
});
