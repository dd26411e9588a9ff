/** What a file that was opened or dropped on the door turns out to be. */
import { type BoardCopy, decodeCopy } from "@halflap/board/copy";
import { doorWords } from "../words/door.ts";

export type ChartFile =
  | { readonly kind: "copy"; readonly copy: BoardCopy }
  | { readonly kind: "text"; readonly text: string }
  | { readonly kind: "problem"; readonly words: string };

const fileMaxBytes = 5 * 1024 * 1024;

/** Reads a file: a board's JSON copy, plain chart text, or words that say what is wrong with it. */
export async function readChartFile(file: File): Promise<ChartFile> {
  if (file.size > fileMaxBytes) return { kind: "problem", words: doorWords.tooLarge(file.name) };
  const text = await file.text();
  if (/\.json$/i.test(file.name) || text.trimStart().startsWith("{")) {
    return copyIn(text, file.name);
  }
  const isPlain = /\.(txt|text|md)$/i.test(file.name) || file.type.startsWith("text/");
  const isText = !text.includes("\u0000") && !text.includes("\uFFFD");
  if (isPlain && isText) return { kind: "text", text };
  return { kind: "problem", words: doorWords.wrongFile(file.name) };
}

function copyIn(text: string, name: string): ChartFile {
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch {
    return { kind: "problem", words: doorWords.notJson(name) };
  }
  const copy = decodeCopy(value);
  if (copy.ok) return { kind: "copy", copy: copy.value };
  const { path, words } = copy.error;
  return { kind: "problem", words: doorWords.brokenCopy(name, path, words) };
}
