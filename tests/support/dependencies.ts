/** Finds imports of packages that a workspace does not declare in its package.json. */
import { isConfig, isTest, packageOf } from "./arrows.ts";
import type { Manifest } from "./manifests.ts";
import type { Source } from "./sources.ts";

/** A sentence for each import of an undeclared package; what tests use may stand in the root. */
export function undeclared(
  sources: readonly Source[],
  manifests: readonly Manifest[],
): readonly string[] {
  const rootManifest = manifests.find((manifest) => manifest.folder === "");
  return sources.flatMap((source) => {
    const home = packageOf(source.path);
    const own = manifests.find((manifest) => manifest.folder === home);
    if (home === undefined || own === undefined) return [];
    const isTool = isTest(source.path) || isConfig(source.path);
    const declared = new Set([
      ...Object.keys(own.dependencies),
      ...(isTool ? Object.keys(own.devDependencies) : []),
      ...(isTool ? Object.keys(rootManifest?.devDependencies ?? {}) : []),
      ...bundled(home, own),
    ]);
    return source.imports
      .map(packageNamed)
      .filter((name) => name !== undefined && !declared.has(name))
      .map((name) => `${source.path}: ${name} is not in ${home}/package.json`);
  });
}

/** The page's build takes everything in, so its tools' modules may be imported by its sources. */
function bundled(home: string, manifest: Manifest): readonly string[] {
  return home === "apps/web" ? Object.keys(manifest.devDependencies) : [];
}

/** `@tonaljs/note` of `@tonaljs/note/x`; undefined for relative, built-in and virtual modules. */
function packageNamed(name: string): string | undefined {
  if (/^(\.|node:|virtual:)/.test(name)) return undefined;
  return name.split("/", name.startsWith("@") ? 2 : 1).join("/");
}
