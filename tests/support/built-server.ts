/**
 * A server's entry built into one file, which starts in a third of the time: for tests that start
 * it a hundred times.
 */
import { mkdirSync, mkdtempSync, rmSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { build, type Plugin } from "vite";
import { root } from "./sources.ts";

export type BuiltEntry = {
  readonly file: string;
  /** Removes it. */
  remove(): void;
};

/** Builds an entry; packages that are not ours stay outside and are found from where it lies. */
export async function buildEntry(entry: string): Promise<BuiltEntry> {
  const home = join(root, "node_modules", ".halflap-built");
  mkdirSync(home, { recursive: true });
  const folder = mkdtempSync(join(home, "server-"));
  await build({
    root,
    configFile: false,
    logLevel: "error",
    plugins: [keepsPlaces()],
    build: {
      ssr: entry,
      outDir: folder,
      minify: false,
      rollupOptions: { output: { entryFileNames: "entry.mjs" } },
    },
  });
  return {
    file: join(folder, "entry.mjs"),
    remove: () => rmSync(folder, { recursive: true, force: true }),
  };
}

/** Files that a source looks for beside itself are still found there. */
function keepsPlaces(): Plugin {
  return {
    name: "keeps-places",
    enforce: "pre",
    transform(code, id) {
      if (!code.includes("import.meta.url")) return undefined;
      return code.replaceAll("import.meta.url", JSON.stringify(pathToFileURL(id).href));
    },
  };
}
