/** Style rules about whole files: their names, their size, their first line and forbidden text. */
import { isConfig, isTest } from "./arrows.ts";
import { lineAt, type Source, type SourceText } from "./sources.ts";

export const fileLinesMax = 300;
export const columnsMax = 100;

/** Files that are a table and little else may be longer; each with the reason. */
export const longTables: ReadonlyMap<string, string> = new Map<string, string>();

const forbiddenNames = /^(utils?|helpers?|managers?|data|info|common|misc|index)$/i;

/** Files above the line limit that are no known table, and known tables that need no exception. */
export function tooLong(files: readonly SourceText[], tables = longTables): string[] {
  const long = files.filter((file) => lineCount(file.text) > fileLinesMax);
  const unexpected = long.filter((file) => !tables.has(file.path));
  const needless = [...tables.keys()].filter((path) => !long.some((file) => file.path === path));
  return [
    ...unexpected.map((file) => `${file.path}: ${lineCount(file.text)} lines`),
    ...needless.map((path) => `${path}: needs no exception`),
  ];
}

/** Lines wider than the limit, in characters; an address that can't be broken may stand. */
export function tooWide(files: readonly SourceText[]): string[] {
  return files.flatMap((file) =>
    file.text
      .split("\n")
      .map((line, index) => ({ line, place: `${file.path}:${index + 1}` }))
      .filter(({ line }) => [...line].length > columnsMax && !/https?:\/\/\S{40}/.test(line))
      .map(({ place }) => `${place}: wider than ${columnsMax}`),
  );
}

/**
 * Files not called `kebab-case.ts`, `PascalCase.tsx` or `.css`, or called by a word that says
 * nothing.
 */
export function badlyNamed(paths: readonly string[]): string[] {
  return paths.filter((path) => {
    const name = path.slice(path.lastIndexOf("/") + 1);
    const stem = name.replace(/(\.(test|spec|config|d))*\.[a-z]+$/, "");
    const isComponent = /\.(tsx|css)$/.test(name) && /^[A-Z][A-Za-z0-9]*$/.test(stem);
    const isPlain = /^[a-z0-9]+(-[a-z0-9]+)*$/.test(stem);
    const words = path.split("/").flatMap((part) => part.replace(/\..*$/, "").split("-"));
    return !(isComponent || isPlain) || words.some((word) => forbiddenNames.test(word));
  });
}

/** Files whose first thing is not a sentence that says what they are. */
export function headerless(sources: readonly Source[]): string[] {
  return sources
    .filter((source) => {
      const first = source.text.replace(/^#!.*\n/, "");
      return !/^(\/\*[\s*]*[A-Z`]|\/\/ [A-Z`])/.test(first);
    })
    .map((source) => source.path);
}

/** Comments that leave work or dead code behind. */
export function leftovers(sources: readonly Source[]): string[] {
  const unfinished = /\b(TODO|FIXME|XXX|HACK)\b/;
  const deadCode = /^\s*(import .* from |const \w+ = .*;$|return .*;$|if \(.*\) \{$)/m;
  return sources.flatMap((source) =>
    source.comments
      .filter((comment) => unfinished.test(comment.value) || deadCode.test(comment.value))
      .map((comment) => `${source.path}:${lineAt(source.text, comment.start)}`),
  );
}

/** Text that names a folder of one machine. */
export function machinePaths(files: readonly SourceText[]): string[] {
  const path = /(^|[\s"'`(=])(\/(home|Users|root|work)\/\S|[A-Z]:\\Users\\)/m;
  return files.filter((file) => path.test(file.text)).map((file) => file.path);
}

/** Tests that are skipped, singled out, or wait for the clock instead of the thing itself. */
export function evasions(sources: readonly Source[]): string[] {
  const evasive = [
    /\b(test|it|describe)\.(skip|only|todo|fixme|fails)\(/,
    /\b(waitForTimeout|sleep)\(/,
    /\bretries: [1-9]/,
  ];
  return sources
    .filter((source) => isTest(source.path) || isConfig(source.path))
    .filter((source) => evasive.some((pattern) => pattern.test(source.text)))
    .map((source) => source.path);
}

function lineCount(text: string): number {
  return text.trimEnd().split("\n").length;
}
