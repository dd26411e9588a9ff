/** Holds the house style, and that every check here can fail. */
import { existsSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { allSources, filesUnder, root, type Source, takeApart } from "./support/sources.ts";
import { brandsIn, castsOutside } from "./support/style-brands.ts";
import {
  badExports,
  emptyNames,
  functionLinesMax,
  longFunctions,
  undocumented,
} from "./support/style-code.ts";
import {
  badlyNamed,
  evasions,
  fileLinesMax,
  headerless,
  leftovers,
  machinePaths,
  tooLong,
  tooWide,
} from "./support/style-files.ts";

const sources = allSources();
const styleSheets = filesUnder("apps/web/src", (name) => name.endsWith(".css"));
const texts = filesUnder("", (name) => /\.(ts|tsx|mjs|css|md|json|ya?ml|html)$/.test(name));
const written = [...sources, ...styleSheets];
/** This file holds the bad examples, so the rules about plain text leave it out. */
const own = "tests/style.test.ts";

function made(path: string, text: string): Source {
  return takeApart({ path, text });
}

describe("the repository", () => {
  test("keeps files short", () => expect(tooLong(written)).toEqual([]));
  test("keeps functions short", () => expect(longFunctions(sources)).toEqual([]));
  test("keeps lines narrow", () => expect(tooWide(written)).toEqual([]));
  test("names files by their idea", () =>
    expect(badlyNamed(written.map((file) => file.path))).toEqual([]));
  test("names exports by their idea", () => expect(emptyNames(sources)).toEqual([]));
  test("opens each file with a sentence", () => expect(headerless(sources)).toEqual([]));
  test("exports by name, from the file itself", () => expect(badExports(sources)).toEqual([]));
  test("explains each export", () => expect(undocumented(sources)).toEqual([]));
  test("gives a quantity its unit in one place", () => {
    expect(brandsIn(sources).size).toBeGreaterThan(5);
    expect(castsOutside(sources, brandsIn(sources))).toEqual([]);
  });
  test("leaves no unfinished work and no dead code", () => expect(leftovers(sources)).toEqual([]));
  test("names no folder of one machine", () => {
    expect(machinePaths(texts.filter((file) => file.path !== own))).toEqual([]);
  });
  test("skips no test and waits for no clock", () => {
    expect(evasions(sources.filter((file) => file.path !== own))).toEqual([]);
  });
  const withRules = ["board", "timeline", "sound", "checker", "wire"];
  test.each(withRules)("has a SPEC.md for the rules of %s", (name) => {
    expect(existsSync(`${root}packages/${name}/SPEC.md`)).toBe(true);
  });
});

describe("a file against the style is caught", () => {
  const lines = (count: number) => "// One line.\n".repeat(count);

  test("too long, unless it is a table with a reason; a needless reason too", () => {
    const long = { path: "packages/x/src/a.ts", text: lines(fileLinesMax + 1) };
    expect(tooLong([long], new Map())).toHaveLength(1);
    expect(tooLong([long], new Map([[long.path, "a table"]]))).toEqual([]);
    expect(tooLong([], new Map([[long.path, "a table"]]))).toHaveLength(1);
    expect(tooLong([{ ...long, text: lines(fileLinesMax) }], new Map())).toEqual([]);
  });

  test("a long function, but not a long chapter of tests", () => {
    const body = "call();\n".repeat(functionLinesMax);
    expect(longFunctions([made("a.ts", `function f() {\n${body}}`)])).toHaveLength(1);
    expect(longFunctions([made("a.ts", `const f = () => {\n${body}};`)])).toHaveLength(1);
    expect(longFunctions([made("a.ts", `class A { m() {\n${body}} }`)])).toHaveLength(1);
    expect(longFunctions([made("a.ts", `test("t", () => {\n${body}});`)])).toHaveLength(1);
    expect(longFunctions([made("a.ts", `describe("d", () => {\n${body}});`)])).toEqual([]);
    const step = `await test.step("s", async () => {\n${"call();\n".repeat(40)}});\n`;
    const story = `test("t", async () => {\n${step}${step}});`;
    expect(longFunctions([made("a.spec.ts", story)])).toEqual([]);
    expect(longFunctions([made("A.tsx", `function Neck() {\n${body}}`)])).toEqual([]);
  });

  test("a wide line, counted in characters", () => {
    expect(tooWide([{ path: "a.ts", text: "♭".repeat(101) }])).toHaveLength(1);
    expect(tooWide([{ path: "a.ts", text: "♭".repeat(100) }])).toEqual([]);
  });

  test("names that say nothing or are cased otherwise", () => {
    const bad = ["src/utils.ts", "src/chord-helper.ts", "src/index.ts", "src/laneView.ts"];
    const worse = ["src/common/a.ts", "src/data.ts", "src/neck-view.tsx.ts", "src/Neck.ts"];
    expect(badlyNamed([...bad, ...worse])).toHaveLength(bad.length + worse.length);
    expect(badlyNamed(["src/lane-view.ts", "src/LaneView.tsx", "src/a.test.ts"])).toEqual([]);
    expect(emptyNames([made("a.ts", "export const chordUtils = 1;")])).toHaveLength(1);
  });

  test("no header", () => {
    expect(headerless([made("a.ts", "const a = 1;")])).toHaveLength(1);
    expect(headerless([made("a.ts", "#!/usr/bin/env node\n/** Starts it. */\n")])).toEqual([]);
  });

  test("default exports and barrels", () => {
    const bad = ["export default 1;", 'export * from "./b.ts";', 'export { b } from "./b.ts";'];
    expect(badExports(bad.map((text) => made("a.ts", text)))).toHaveLength(3);
    expect(badExports([made("vite.config.ts", "export default 1;")])).toEqual([]);
  });

  test("an export without a word, but the first has the file's own sentence", () => {
    const header = "/** A file. */\nexport const first = 0;\n\n";
    const bare = `${header}export const a = 1;\n\nexport function f() {}\n`;
    expect(undocumented([made("a.ts", bare)])).toEqual(["a.ts:4: a", "a.ts:6: f"]);
    const explained = `${header}/** One. */\nexport const a = 1;\nexport const b = 2;\n`;
    expect(undocumented([made("a.ts", explained)])).toEqual([]);
  });

  test("a cast to a unit, except where the unit is given", () => {
    const brand = 'export type Fret = number & { readonly unit: "Fret" };\n';
    const good = "export function fret(value: number): Fret { return value as Fret; }\n";
    const bad = "export function next(value: number) { return value as Fret; }\n";
    const brands = brandsIn([made("a.ts", brand)]);
    expect(castsOutside([made("a.ts", brand + good)], brands)).toEqual([]);
    expect(castsOutside([made("a.ts", brand + good + bad)], brands)).toEqual(["a.ts:3: as Fret"]);
  });

  test("unfinished work and dead code", () => {
    expect(leftovers([made("a.ts", "// TODO: later")])).toHaveLength(1);
    expect(leftovers([made("a.ts", "// const old = 1;")])).toHaveLength(1);
    expect(leftovers([made("a.ts", "// Because the capo lifts it.")])).toEqual([]);
  });

  test("a folder of one machine", () => {
    expect(machinePaths([{ path: "a.md", text: "see /home/ann/x" }])).toHaveLength(1);
    expect(machinePaths([{ path: "a.md", text: "homework/x" }])).toEqual([]);
  });

  test("a skipped or sleeping test", () => {
    const bad = ['test.skip("a", f);', 'it.only("a", f);', "await page.waitForTimeout(100);"];
    expect(evasions(bad.map((text) => made("x.test.ts", text)))).toHaveLength(3);
  });
});
