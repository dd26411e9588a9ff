/**
 * A bench module as the page's builder leaves it. Read by the loader of the tests each function is
 * given its name anew whenever it is made, a tenth of a check; no page does that.
 */
import { mkdtempSync, rmSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { build } from "vite";
import { root } from "../support/sources.ts";

/** Builds the module beside this file for this very engine, and loads it. */
export async function asBuilt<Module>(name: string): Promise<Module> {
  // Beside the libraries, which stay as they are and are found from there.
  const folder = mkdtempSync(join(root, "node_modules", ".built-"));
  try {
    await build({
      configFile: false,
      logLevel: "error",
      ssr: { noExternal: [/^@halflap\//], target: "node" },
      build: {
        ssr: fileURLToPath(new URL(`./${name}.ts`, import.meta.url)),
        outDir: folder,
        minify: true,
        rolldownOptions: { output: { entryFileNames: "built.mjs" } },
      },
    });
    return (await import(pathToFileURL(join(folder, "built.mjs")).href)) as Module;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
