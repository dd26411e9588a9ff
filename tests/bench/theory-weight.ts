/** How much of the page is theory and tonal: the modules the page imports, on their own. */
import { gzipSync } from "node:zlib";
import { build, loadConfigFromFile, type UserConfig } from "vite";
import { filesUnder, root, takeApart } from "../support/sources.ts";
import type { Figure } from "./figure.ts";

const kilobyte = 1000;
/** What runs in the page besides theory itself. */
const pageFolders = ["apps/web/src", "packages/board/src", "packages/checker/src"];
const entry = "\0theory-of-the-page";

/** Theory and tonal as the page is built, compressed, beside the same with everything kept. */
export async function theoryWeight(): Promise<readonly Figure[]> {
  const loaded = await loadConfigFromFile(
    { command: "build", mode: "production" },
    `${root}apps/web/vite.config.ts`,
  );
  const options = loaded?.config.build?.rolldownOptions;
  const modules = modulesOfThePage();
  return [
    {
      name: `theory and tonal, ${modules.length} modules the page imports, compressed`,
      unit: "KB",
      value: (await weightOf(modules, options)) / kilobyte,
      budget: 35,
      baseline: {
        name: "the same with tonal's dictionaries",
        value: (await weightOf(modules, {})) / kilobyte,
      },
    },
  ];
}

/** The modules of theory that anything in the page names, whole: a little more than it uses. */
function modulesOfThePage(): readonly string[] {
  const sources = pageFolders.flatMap((folder) =>
    filesUnder(folder, (name) => /\.tsx?$/.test(name) && !name.includes(".test.")),
  );
  const imports = sources.flatMap((source) => takeApart(source).imports);
  return [...new Set(imports.filter((name) => name.startsWith("@halflap/theory/")))].sort();
}

type BuildOptions = NonNullable<UserConfig["build"]>["rolldownOptions"];

async function weightOf(modules: readonly string[], options: BuildOptions): Promise<number> {
  const built = await build({
    configFile: false,
    logLevel: "silent",
    root: `${root}apps/web`,
    plugins: [
      {
        name: "entry",
        resolveId: (id) => (id === entry ? id : undefined),
        load: (id) =>
          id === entry ? modules.map((name) => `export * from "${name}";`).join("\n") : undefined,
      },
    ],
    build: {
      write: false,
      rolldownOptions: {
        ...options,
        input: entry,
        preserveEntrySignatures: "strict",
      },
    },
  });
  const outputs = Array.isArray(built) ? built : [built];
  const chunks = outputs
    .flatMap((each) => ("output" in each ? each.output : []))
    .flatMap((each) => (each.type === "chunk" ? [each.code] : []));
  return gzipSync(chunks.join("\n"), { level: 9 }).length;
}
