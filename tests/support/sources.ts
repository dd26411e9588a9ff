/**
 * Reads the source files of this repository and takes them apart, for the tests that hold its
 * rules.
 */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { parseSync } from "vite";

/** The repository's own folder, with a slash at the end. */
export const root = fileURLToPath(new URL("../../", import.meta.url));

/** A file as it stands: path from the root with forward slashes. */
export type SourceText = { readonly path: string; readonly text: string };

/** A node of the syntax tree (ESTree with TypeScript); offsets are into the text. */
export type Node = { readonly type: string; readonly start: number; readonly end: number } & {
  readonly [field: string]: unknown;
};

export type Comment = { readonly start: number; readonly end: number; readonly value: string };

/** A source file taken apart. */
export type Source = SourceText & {
  readonly body: readonly Node[];
  readonly comments: readonly Comment[];
  /** What it imports, statically or by `import()`, types included. */
  readonly imports: readonly string[];
};

const skippedFolders = new Set([
  "node_modules",
  "dist",
  ".git",
  ".halflap",
  "test-results",
  "playwright-report",
]);

/** Every file below a folder whose name passes, in a fixed order. */
export function filesUnder(folder: string, passes: (name: string) => boolean): SourceText[] {
  const found: SourceText[] = [];
  const entries = readdirSync(join(root, folder), { withFileTypes: true });
  for (const entry of entries.sort((a, b) => a.name.localeCompare(b.name, "en"))) {
    const path = folder === "" ? entry.name : `${folder}/${entry.name}`;
    if (entry.isDirectory() && !skippedFolders.has(entry.name)) {
      found.push(...filesUnder(path, passes));
    }
    if (entry.isFile() && passes(entry.name)) {
      found.push({ path, text: readFileSync(join(root, path), "utf8") });
    }
  }
  return found;
}

/** Every TypeScript and JavaScript file of the repository. */
export function allSources(): Source[] {
  return filesUnder("", (name) => /\.(ts|tsx|mts|mjs)$/.test(name)).map(takeApart);
}

/** Parses one file; a file that does not parse is a bug, told with its place. */
export function takeApart(file: SourceText): Source {
  const parsed = parseSync(file.path, file.text);
  const problem = parsed.errors[0];
  if (problem !== undefined) throw new Error(`${file.path}: ${problem.message}`);
  const program = asNode(parsed.program);
  const body = nodesIn(program?.body);
  return { ...file, body, comments: parsed.comments, imports: importsOf(body) };
}

/** A value of the tree as a node, if it is one. */
export function asNode(value: unknown): Node | undefined {
  const isNode = typeof value === "object" && value !== null && "type" in value;
  return isNode ? (value as Node) : undefined;
}

/** The nodes of a list in the tree. */
export function nodesIn(value: unknown): readonly Node[] {
  if (!Array.isArray(value)) return [];
  return value.map(asNode).filter((node) => node !== undefined);
}

/** Calls `visit` for every node below and including `node`, parents first. */
export function walk(node: Node, visit: (node: Node, parents: readonly Node[]) => void): void {
  const step = (at: Node, parents: readonly Node[]): void => {
    visit(at, parents);
    const below = [...parents, at];
    for (const value of Object.values(at)) {
      const child = asNode(value);
      if (child !== undefined) step(child, below);
      for (const item of nodesIn(value)) step(item, below);
    }
  };
  step(node, []);
}

/** The 1-based line of an offset. */
export function lineAt(text: string, offset: number): number {
  return text.slice(0, offset).split("\n").length;
}

/** The text field of a node, such as a name or a literal. */
export function textOf(node: Node | undefined, field: string): string | undefined {
  const value = node?.[field];
  return typeof value === "string" ? value : undefined;
}

function importsOf(body: readonly Node[]): readonly string[] {
  const found: string[] = [];
  for (const statement of body) {
    walk(statement, (node) => {
      if (!importing.has(node.type)) return;
      const name = textOf(asNode(node.source), "value");
      if (name !== undefined) found.push(name);
    });
  }
  return found;
}

const importing = new Set([
  "ImportDeclaration",
  "ExportNamedDeclaration",
  "ExportAllDeclaration",
  "ImportExpression",
  "TSImportType",
]);
