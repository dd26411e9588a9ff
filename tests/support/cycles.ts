/** Finds a ring of files that import each other, across packages too. */
import { resolved } from "./arrows.ts";
import type { Source } from "./sources.ts";

/** Where `@halflap/board/read` leads: from the name to the file, as the packages' exports say. */
export type ExportedFiles = ReadonlyMap<string, string>;

/**
 * The rings found, each as the paths along it; empty when there are none. Types count as imports.
 */
export function importCycles(sources: readonly Source[], exported: ExportedFiles): string[][] {
  const byPath = new Map(sources.map((source) => [source.path, source]));
  const finished = new Set<string>();
  const cycles: string[][] = [];
  const visit = (path: string, trail: readonly string[]): void => {
    const since = trail.indexOf(path);
    if (since >= 0) cycles.push([...trail.slice(since), path]);
    const source = byPath.get(path);
    if (since >= 0 || finished.has(path) || source === undefined) return;
    for (const name of source.imports) {
      const target = name.startsWith(".") ? resolved(path, name) : exported.get(name);
      if (target !== undefined) visit(target, [...trail, path]);
    }
    finished.add(path);
  };
  for (const path of byPath.keys()) visit(path, []);
  return cycles;
}
