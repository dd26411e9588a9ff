/** Holds the direction of the imports, and that every check here can fail. */
import { existsSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { arrows, brokenArrows } from "./support/arrows.ts";
import { importCycles } from "./support/cycles.ts";
import { undeclared } from "./support/dependencies.ts";
import { allManifests, exportedFiles } from "./support/manifests.ts";
import { impurities } from "./support/purity.ts";
import { allSources, root, type Source, takeApart } from "./support/sources.ts";

const sources = allSources();
const manifests = allManifests();

function made(path: string, text: string): Source {
  return takeApart({ path, text });
}

describe("the repository", () => {
  test("was found and read", () => {
    expect(sources.length).toBeGreaterThan(20);
    expect(manifests.map((manifest) => manifest.folder)).toEqual(
      expect.arrayContaining(["", ...Object.keys(arrows)]),
    );
  });

  test("imports along the arrows only", () => {
    expect(brokenArrows(sources)).toEqual([]);
  });

  test("has no ring of imports", () => {
    expect(importCycles(sources, exportedFiles(manifests))).toEqual([]);
  });

  test("declares what it imports", () => {
    expect(undeclared(sources, manifests)).toEqual([]);
  });

  test("keeps clock, chance and machine out of the pure packages", () => {
    expect(impurities(sources)).toEqual([]);
  });

  test("exports files that exist", () => {
    const missing = [...exportedFiles(manifests)].filter(([, file]) => !existsSync(root + file));
    expect(missing).toEqual([]);
  });
});

describe("an arrow the wrong way is caught", () => {
  const wrong: readonly (readonly [string, string, string])[] = [
    ["theory to board", "packages/theory/src/x.ts", "@halflap/board/board"],
    ["theory to Yjs", "packages/theory/src/x.ts", "yjs"],
    ["theory to Node", "packages/theory/src/x.ts", "node:fs"],
    ["checker to Yjs", "packages/checker/src/x.ts", "yjs"],
    ["board to checker", "packages/board/src/x.ts", "@halflap/checker/check"],
    ["wire to Yjs", "packages/wire/src/x.ts", "yjs"],
    ["server to the page", "apps/server/src/x.ts", "../../web/src/main.tsx"],
    ["the neck to Yjs", "apps/web/src/neck/x.ts", "yjs"],
    ["the neck to a provider", "apps/web/src/neck/x.ts", "y-websocket"],
    ["the door to edits", "apps/web/src/door/x.ts", "@halflap/board/edits/chart"],
    ["the seam behind the session", "apps/web/src/seam/x.ts", "../session/undo.ts"],
    ["a package with no row", "packages/attic/src/x.ts", "yjs"],
    ["a longer name that starts alike", "packages/board/src/x.ts", "yjs-other"],
  ];
  test.each(wrong)("%s", (_, path, name) => {
    expect(brokenArrows([made(path, `import ${JSON.stringify(name)};`)])).toHaveLength(1);
    const asType = `import type { A } from ${JSON.stringify(name)};`;
    expect(brokenArrows([made(path, asType)])).toHaveLength(1);
    const late = `await import(${JSON.stringify(name)});`;
    expect(brokenArrows([made(path, late)])).toHaveLength(1);
  });

  test("the allowed ones pass", () => {
    const fine: readonly (readonly [string, string])[] = [
      ["packages/board/src/x.ts", "yjs"],
      ["apps/web/src/session/x.ts", "yjs"],
      ["apps/web/src/neck/x.ts", "../session/session.ts"],
      ["apps/server/src/x.ts", "node:fs"],
      ["packages/theory/src/x.test.ts", "fast-check"],
    ];
    const files = fine.map(([path, name]) => made(path, `import ${JSON.stringify(name)};`));
    expect(brokenArrows(files)).toEqual([]);
  });
});

describe("other faults are caught", () => {
  test("a ring of three, one step through an export", () => {
    const ring = [
      made("packages/theory/src/a.ts", 'import "./b.ts";'),
      made("packages/theory/src/b.ts", 'import type { C } from "@halflap/theory/c";'),
      made("packages/theory/src/c.ts", 'export const late = () => import("./a.ts");'),
    ];
    const exported = new Map([["@halflap/theory/c", "packages/theory/src/c.ts"]]);
    expect(importCycles(ring, exported)).toHaveLength(1);
    expect(importCycles(ring.slice(0, 2), exported)).toEqual([]);
  });

  test("an undeclared package", () => {
    const source = made("packages/theory/src/x.ts", 'import "left-out/deep";');
    expect(undeclared([source], manifests)).toEqual([
      "packages/theory/src/x.ts: left-out is not in packages/theory/package.json",
    ]);
  });

  test("a clock, a die and a socket in a pure package, but not a parameter named alike", () => {
    const bad = "export const f = () => [new Date(), Date.now(), Math.random(), fetch('/')];";
    expect(impurities([made("packages/theory/src/x.ts", bad)])).toHaveLength(4);
    const fine = "export const f = (document: { size: number }) => document.size;";
    expect(impurities([made("packages/board/src/x.ts", fine)])).toEqual([]);
  });
});
