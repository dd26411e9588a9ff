/** The command line: which command with what, or why not. */
import { parseArgs } from "node:util";
import type { Reading } from "@halflap/theory/chord";

export type Command =
  | { readonly kind: "help" }
  | { readonly kind: "version" }
  | {
      readonly kind: "check";
      readonly file: string;
      readonly json: boolean;
      readonly ways: boolean;
    }
  | { readonly kind: "copy"; readonly store: string; readonly board: string | undefined };

/**
 * The command of the arguments (without the program), or a sentence that says what is wrong with
 * them.
 */
export function readCommandLine(words: readonly string[]): Reading<Command, string> {
  const parsed = parse(words);
  if (!parsed.ok) return parsed;
  const { values, positionals } = parsed.value;
  if (values.help) return { ok: true, value: { kind: "help" } };
  if (values.version) return { ok: true, value: { kind: "version" } };
  const [name, first, ...more] = positionals;
  if (more.length > 0) return bad(`"${more[0]}" is one too many.`);
  switch (name) {
    case "check":
      if (values.store !== undefined) return bad("check reads a file and takes no --store.");
      if (first === undefined) return bad("check needs a file, or - for the standard input.");
      return {
        ok: true,
        value: { kind: "check", file: first, json: values.json, ways: values.ways },
      };
    case "copy":
      if (values.ways) return bad("copy flags nothing and takes no --ways.");
      if (values.json) return bad("copy always writes JSON and takes no --json.");
      if (values.store === undefined) return bad("copy needs --store and a server's SQLite file.");
      return { ok: true, value: { kind: "copy", store: values.store, board: first } };
    case undefined:
      return bad("What shall it be: check or copy?");
    default:
      return bad(`There is no command "${name}": it is check or copy.`);
  }
}

function parse(words: readonly string[]) {
  try {
    const value = parseArgs({
      args: [...words],
      allowPositionals: true,
      options: {
        help: { type: "boolean", short: "h", default: false },
        version: { type: "boolean", default: false },
        json: { type: "boolean", default: false },
        ways: { type: "boolean", default: false },
        store: { type: "string" },
      },
    });
    return { ok: true, value } as const;
  } catch (fault) {
    const first = fault instanceof Error ? fault.message.split(". ")[0] : String(fault);
    return bad(`${first}.`);
  }
}

function bad(words: string): Reading<never, string> {
  return { ok: false, error: words };
}
