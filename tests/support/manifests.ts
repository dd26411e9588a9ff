/** Reads the package.json files of the workspaces. */
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { root } from "./sources.ts";

export type Manifest = {
  /** The folder, `packages/theory`; "" for the root. */
  readonly folder: string;
  readonly name: string;
  readonly exports: Readonly<Record<string, string>>;
  readonly dependencies: Readonly<Record<string, string>>;
  readonly devDependencies: Readonly<Record<string, string>>;
};

/** The package.json of every workspace and of the root. */
export function allManifests(): readonly Manifest[] {
  const folders = ["packages", "apps"].flatMap((parent) =>
    readdirSync(join(root, parent)).map((name) => `${parent}/${name}`),
  );
  return ["", ...folders]
    .filter((folder) => existsSync(join(root, folder, "package.json")))
    .map(readManifest);
}

/** From `@halflap/board/read` to `packages/board/src/read.ts`, for every exported module. */
export function exportedFiles(manifests: readonly Manifest[]): ReadonlyMap<string, string> {
  return new Map(
    manifests.flatMap((manifest) =>
      Object.entries(manifest.exports).map(([subpath, file]): [string, string] => [
        `${manifest.name}${subpath.slice(1)}`,
        `${manifest.folder}/${file.replace(/^\.\//, "")}`,
      ]),
    ),
  );
}

function readManifest(folder: string): Manifest {
  const read = JSON.parse(readFileSync(join(root, folder, "package.json"), "utf8"));
  return { exports: {}, dependencies: {}, devDependencies: {}, ...read, folder };
}
