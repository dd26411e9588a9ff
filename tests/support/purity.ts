/** Finds what the pure packages may not touch: the clock, the random source, the machine. */
import { isTest } from "./arrows.ts";
import { lineAt, type Node, type Source, textOf, walk } from "./sources.ts";

const pureFolders = ["theory", "board", "timeline", "sound", "checker", "fitter", "wire"].map(
  (name) => `packages/${name}/`,
);

const impureNames = new Set([
  "Date",
  "performance",
  "crypto",
  "setTimeout",
  "setInterval",
  "setImmediate",
  "queueMicrotask",
  "fetch",
  "process",
  "Buffer",
  "document",
  "window",
  "navigator",
  "localStorage",
  "console",
]);

/**
 * A sentence for each use of the outside world in a pure package; times, ids and seeds are
 * arguments.
 */
export function impurities(sources: readonly Source[]): readonly string[] {
  return sources.filter(isPure).flatMap((source) => {
    const found: string[] = [];
    for (const statement of source.body) {
      walk(statement, (node, parents) => {
        const name = impureName(node, parents.at(-1));
        if (name === undefined) return;
        found.push(`${source.path}:${lineAt(source.text, node.start)}: ${name}`);
      });
    }
    return found;
  });
}

function isPure(source: Source): boolean {
  return pureFolders.some((folder) => source.path.startsWith(folder)) && !isTest(source.path);
}

/** A free name of the outside world; a field or parameter that happens to be called so is none. */
function impureName(node: Node, parent: Node | undefined): string | undefined {
  if (node.type === "MemberExpression" && isMathRandom(node)) return "Math.random";
  const name = node.type === "Identifier" ? textOf(node, "name") : undefined;
  if (name === undefined || !impureNames.has(name)) return undefined;
  const isCalled = parent?.callee === node;
  const isOpened = parent?.type === "MemberExpression" && parent.object === node;
  return isCalled || (isOpened && name !== "document") ? name : undefined;
}

function isMathRandom(node: Node): boolean {
  return nameOf(node.object) === "Math" && nameOf(node.property) === "random";
}

function nameOf(value: unknown): string | undefined {
  const isNode = typeof value === "object" && value !== null && "name" in value;
  return isNode && typeof value.name === "string" ? value.name : undefined;
}
