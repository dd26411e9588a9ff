/** Which way imports may point: the table, and what breaks it. */
import { dirname, posix } from "node:path";
import type { Source } from "./sources.ts";

/**
 * What one package may import: packages of ours, and modules from outside by the start of their
 * name.
 */
type Arrow = { readonly ours: readonly string[]; readonly outside: readonly string[] };

/**
 * The arrows. theory <- board <- timeline <- checker and sound, checker <- fitter, board <- wire,
 * all <- the apps;
 * only `board` knows Yjs among the packages.
 */
export const arrows: Readonly<Record<string, Arrow>> = {
  "packages/theory": { ours: [], outside: ["tonal"] },
  "packages/board": { ours: ["theory"], outside: ["yjs"] },
  "packages/timeline": { ours: ["theory", "board"], outside: [] },
  "packages/sound": { ours: ["theory", "board", "timeline"], outside: [] },
  "packages/checker": { ours: ["theory", "board", "timeline"], outside: [] },
  "packages/fitter": { ours: ["theory", "board", "timeline", "checker"], outside: [] },
  "packages/wire": { ours: ["board"], outside: ["lib0"] },
  "apps/server": {
    ours: ["board", "wire"],
    outside: [
      "node:",
      "hono",
      "@hono/node-server",
      "ws",
      "better-sqlite3",
      "pg",
      "redis",
      "tsx",
      "yjs",
      "y-protocols",
      "lib0",
    ],
  },
  "apps/cli": {
    ours: ["theory", "board", "timeline", "sound", "checker", "fitter", "server"],
    outside: ["node:", "tsx"],
  },
  "apps/web": {
    ours: ["theory", "board", "timeline", "sound", "checker", "fitter", "wire"],
    outside: ["solid-js", "@solidjs/router", "@fontsource-variable/", "virtual:pwa-register"],
  },
};

/** Folders of the page that may know more than the rest of it, and what. */
export const webFolders: Readonly<Record<string, readonly string[]>> = {
  "apps/web/src/session": ["yjs", "y-websocket", "y-indexeddb", "y-protocols", "lib0"],
};

/**
 * Folders of the page that draw the music: they see the session's face, never each way around it.
 */
export const drawingFolders = ["board", "neck", "seam", "findings", "playing", "singing"] as const;

/** Who may start what: the one import that crosses into a package without its exports. */
const entryPoints: Readonly<Record<string, string>> = {
  "scripts/start.mjs": "apps/server/src/main.ts",
};

const testTools = ["vitest", "fast-check", "node:", "@solidjs/testing-library", "solid-js"];

/** A sentence for each import that the table does not allow; empty when all is well. */
export function brokenArrows(sources: readonly Source[]): string[] {
  return sources.flatMap((source) => source.imports.flatMap((name) => judge(source.path, name)));
}

/**
 * The package a file belongs to, `packages/theory`; undefined for tests, scripts and root files.
 */
export function packageOf(path: string): string | undefined {
  return /^(?:packages|apps)\/[^/]+/.exec(path)?.[0];
}

function judge(path: string, name: string): readonly string[] {
  const home = packageOf(path);
  if (name.startsWith(".")) return judgeRelative(path, name, home);
  if (home === undefined || isConfig(path)) return [];
  const arrow = arrows[home];
  if (arrow === undefined) return [`${path}: ${home} has no row in the table of arrows`];
  const own = /^@halflap\/([^/]+)/.exec(name)?.[1];
  if (own !== undefined) {
    const fine = arrow.ours.includes(own) && mayDraw(path, name);
    return fine ? [] : [`${path}: may not import ${name}`];
  }
  const fine = outsideOf(path, arrow).some((allowed) => isWithin(name, allowed));
  return fine ? [] : [`${path}: may not import ${name} from outside`];
}

function judgeRelative(path: string, name: string, home: string | undefined): readonly string[] {
  const target = resolved(path, name);
  if (entryPoints[path] === target) return [];
  // Stand-ins for clock and socket are made once, for whoever tests with them.
  if (isTest(path) && target.startsWith("tests/fakes/")) return [];
  // A fake is written once, and the test that needs it stands beside its source.
  if (path.endsWith(".test.ts") && target.startsWith("tests/fakes/")) return [];
  if (packageOf(target) !== home)
    return [`${path}: ${name} reaches into another package; use its exports`];
  const folder = /^apps\/web\/src\/([^/]+)\//.exec(path)?.[1] ?? "";
  const isDrawing = drawingFolders.some((known) => known === folder);
  const isSession = target.startsWith("apps/web/src/session/");
  if (isDrawing && isSession && !target.endsWith("/session/session.ts") && !isTest(path)) {
    return [`${path}: sees the session through session/session.ts only`];
  }
  return [];
}

/** Drawing knows no edits and no documents: it calls the session's intents. */
function mayDraw(path: string, name: string): boolean {
  const isPage = path.startsWith("apps/web/src/") && !path.startsWith("apps/web/src/session/");
  const isDocument = /^@halflap\/board\/(edits\/|documents$|read$)/.test(name);
  return !(isPage && isDocument) || isTest(path);
}

function outsideOf(path: string, arrow: Arrow): readonly string[] {
  const folder = Object.keys(webFolders).find((known) => path.startsWith(`${known}/`));
  const more = folder === undefined ? [] : (webFolders[folder] ?? []);
  return [...arrow.outside, ...more, ...(isTest(path) ? testTools : [])];
}

function isWithin(name: string, allowed: string): boolean {
  const isOpen = allowed.endsWith(":") || allowed.endsWith("/");
  return name === allowed || name.startsWith(isOpen ? allowed : `${allowed}/`);
}

/** Whether a file is a test or stands beside tests only. */
export function isTest(path: string): boolean {
  return /\.test\.tsx?$|\/test-support\//.test(path) || path.startsWith("tests/");
}

/** Configuration of tools: read by them, imported by nobody. */
export function isConfig(path: string): boolean {
  return /(^|\/)[^/]+\.config\.ts$/.test(path);
}

/** The path a relative import means. */
export function resolved(path: string, name: string): string {
  return posix.normalize(`${dirname(path)}/${name.replace(/\?.*$/, "")}`);
}
