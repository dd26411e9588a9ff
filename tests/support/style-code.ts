/** Style rules about what is inside a file: functions, exports and their docstrings. */
import { isConfig, isTest } from "./arrows.ts";
import { asNode, lineAt, type Node, nodesIn, type Source, textOf, walk } from "./sources.ts";

export const functionLinesMax = 60;
/** A component's markup is one function; see the house rules on Solid. */
export const componentLinesMax = 150;

const functionTypes = new Set([
  "FunctionDeclaration",
  "FunctionExpression",
  "ArrowFunctionExpression",
]);

/** Functions above the limit; the callback of a `describe` is a chapter, not a function. */
export function longFunctions(sources: readonly Source[]): string[] {
  return sources.flatMap((source) => {
    const found: string[] = [];
    for (const statement of source.body) {
      walk(statement, (node, parents) => {
        if (!functionTypes.has(node.type) || isChapter(parents.at(-1))) return;
        const first = lineAt(source.text, node.start);
        const lines = lineAt(source.text, node.end) - first + 1 - linesOfSteps(source.text, node);
        const max = isComponent(source.path, node, parents) ? componentLinesMax : functionLinesMax;
        if (lines > max) found.push(`${source.path}:${first}: ${lines} lines`);
      });
    }
    return found;
  });
}

/** How many lines of a browser story stand in its named steps, each a function of its own. */
function linesOfSteps(text: string, story: Node): number {
  let lines = 0;
  walk(story, (node) => {
    const callee = node.type === "CallExpression" ? asNode(node.callee) : undefined;
    const isStep =
      textOf(asNode(callee?.object), "name") === "test" &&
      textOf(asNode(callee?.property), "name") === "step";
    if (isStep) lines += lineAt(text, node.end) - lineAt(text, node.start);
  });
  return lines;
}

/** Default exports, and files that pass on what another file exports. */
export function badExports(sources: readonly Source[]): string[] {
  return sources
    .filter((source) => !isConfig(source.path))
    .flatMap((source) =>
      source.body
        .filter(
          (node) =>
            node.type === "ExportDefaultDeclaration" ||
            node.type === "ExportAllDeclaration" ||
            (node.type === "ExportNamedDeclaration" && asNode(node.source) !== undefined),
        )
        .map((node) => `${source.path}:${lineAt(source.text, node.start)}: ${node.type}`),
    );
}

/**
 * Exported functions, classes and values that nothing explains: a comment above or at the end of
 * the line, the file's own sentence for the first export, or the comment of a run of one-line
 * exports that stand together. Types are left to taste: their names and branded fields mostly say
 * it.
 */
export function undocumented(sources: readonly Source[]): string[] {
  return sources
    .filter((source) => !isTest(source.path) && !isConfig(source.path))
    .flatMap((source) =>
      exportsOf(source)
        .filter((node) => !isTypeOnly(node) && !isExplained(source, node))
        .map((node) => `${source.path}:${lineAt(source.text, node.start)}: ${exportedName(node)}`),
    );
}

/** Exported names that say nothing. */
export function emptyNames(sources: readonly Source[]): string[] {
  const empty = /^(util|utils|helper|helpers|manager|misc|info)$/i;
  return sources.flatMap((source) =>
    source.body
      .filter((node) => node.type === "ExportNamedDeclaration")
      .map(exportedName)
      .filter((name) => name.split(/(?=[A-Z])/).some((word) => empty.test(word)))
      .map((name) => `${source.path}: ${name}`),
  );
}

function isChapter(parent: Node | undefined): boolean {
  if (parent?.type !== "CallExpression") return false;
  const callee = asNode(parent.callee);
  const called = callee?.type === "MemberExpression" ? asNode(callee.object) : callee;
  return textOf(called, "name") === "describe" || isDescribe(asNode(callee?.object));
}

/** `test.describe`, as the browser tests write it. */
function isDescribe(callee: Node | undefined): boolean {
  return textOf(callee, "name") === "test";
}

function isComponent(path: string, node: Node, parents: readonly Node[]): boolean {
  const holder = parents.at(-1);
  const own = textOf(asNode(node.id), "name") ?? textOf(asNode(holder?.id), "name") ?? "";
  return path.endsWith(".tsx") && /^[A-Z]/.test(own);
}

function exportsOf(source: Source): readonly Node[] {
  return source.body.filter((node) => node.type.startsWith("Export"));
}

function isTypeOnly(node: Node): boolean {
  return asNode(node.declaration)?.type.startsWith("TS") === true;
}

function isExplained(source: Source, node: Node): boolean {
  const lines = source.text.split("\n");
  const first = lineAt(source.text, node.start) - 1;
  const last = lineAt(source.text, node.end) - 1;
  const above = (lines[first - 1] ?? "").trim();
  if (above.endsWith("*/") || above.startsWith("//")) return true;
  if (/\/\/ \S/.test(lines[last] ?? "") || exportsOf(source)[0] === node) return true;
  const previous = source.body[source.body.indexOf(node) - 1];
  const isRun =
    previous?.type.startsWith("Export") === true &&
    lineAt(source.text, previous.end) === first &&
    lineAt(source.text, previous.start) === first;
  return isRun && first === last && isExplained(source, previous);
}

function exportedName(node: Node): string {
  const declared = asNode(node.declaration);
  const first = nodesIn(declared?.declarations)[0] ?? declared;
  return textOf(asNode(first?.id), "name") ?? node.type;
}
