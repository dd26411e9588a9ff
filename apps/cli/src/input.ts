/** Text from a file or the standard input, within bounds. */
import { createReadStream } from "node:fs";
import type { Readable } from "node:stream";
import type { Reading } from "@halflap/theory/chord";

/** The most that is read, in bytes: 5 MiB, far above the largest board. */
export const inputBytesMax = 5 * 1024 * 1024;

/** The text of a file, "-" = the given stream; or a sentence that says why it can't be read. */
export async function readInput(
  file: string,
  standard: Readable,
): Promise<Reading<string, string>> {
  const source: Readable = file === "-" ? standard : createReadStream(file);
  const chunks: Buffer[] = [];
  let bytes = 0;
  try {
    for await (const chunk of source) {
      const part = Buffer.from(chunk);
      bytes += part.length;
      if (bytes > inputBytesMax) {
        source.destroy();
        return bad(`${named(file)} is larger than ${inputBytesMax / 1024 / 1024} MiB.`);
      }
      chunks.push(part);
    }
  } catch (fault) {
    return bad(`${named(file)} ${because(fault)}`);
  }
  try {
    const text = new TextDecoder("utf-8", { fatal: true }).decode(Buffer.concat(chunks));
    return { ok: true, value: text };
  } catch {
    return bad(`${named(file)} is no text in UTF-8.`);
  }
}

/** How messages name an input. */
export function named(file: string): string {
  return file === "-" ? "The standard input" : file;
}

function because(fault: unknown): string {
  const code = fault instanceof Error && "code" in fault ? fault.code : undefined;
  if (code === "ENOENT") return "is not there.";
  if (code === "EISDIR") return "is a folder.";
  if (code === "EACCES") return "may not be read.";
  return `can't be read: ${fault instanceof Error ? fault.message : String(fault)}.`;
}

function bad(words: string): Reading<never, string> {
  return { ok: false, error: words };
}
