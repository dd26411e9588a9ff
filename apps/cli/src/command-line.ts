/** The command line: which command with what, or why not. */
import { parseArgs } from "node:util";
import type { Reading } from "@halflap/theory/chord";
import { type FitOptions, type FitWords, readFitOptions } from "./fit/fit-options.ts";

export type Command =
  | { readonly kind: "help" }
  | { readonly kind: "version" }
  | {
      readonly kind: "check";
      readonly file: string;
      readonly json: boolean;
      readonly ways: boolean;
    }
  | ({ readonly kind: "fit" } & FitOptions)
  | { readonly kind: "copy"; readonly store: string; readonly board: string | undefined }
  | StoreCommand;

/** What whoever runs a server does with its store. */
export type StoreCommand =
  | (FileCommand & { readonly store: string; readonly json: boolean })
  | (AnyStoreCommand & {
      /** Undefined for the database of the environment. */
      readonly store: string | undefined;
      readonly json: boolean;
    });

/** A database has programs of its own for these. */
type FileCommand =
  | { readonly kind: "backup"; readonly file: string }
  | { readonly kind: "restore"; readonly file: string };

type AnyStoreCommand =
  | { readonly kind: "verify" }
  | { readonly kind: "raise-epochs" }
  | {
      readonly kind: "export-member";
      readonly member: string;
      /** A folder for the sound of their takes. */
      readonly takes: string | undefined;
    }
  | {
      readonly kind: "delete-member";
      readonly member: string;
      /** Other ids of the same person, under other names. */
      readonly also: readonly string[];
      readonly withBoards: boolean;
    };

type Words = FitWords & {
  readonly ways: boolean;
  readonly store: string | undefined;
  readonly takes: string | undefined;
  readonly also: readonly string[] | undefined;
  readonly "with-boards": boolean;
};
type Reader = (first: string | undefined, words: Words) => Reading<Command, string>;

/**
 * The command of the arguments (without the program), or a sentence that says what is wrong with
 * them.
 */
export function readCommandLine(words: readonly string[]): Reading<Command, string> {
  const parsed = parse(words);
  if (!parsed.ok) return parsed;
  const { values, positionals } = parsed.value;
  if (values.help) return good({ kind: "help" });
  if (values.version) return good({ kind: "version" });
  const [name, first, ...more] = positionals;
  if (more.length > 0) return bad(`"${more[0]}" is one too many.`);
  const names = [...commands.keys()];
  const choice = `${names.slice(0, -1).join(", ")} or ${names.at(-1)}`;
  if (name === undefined) return bad(`What shall it be: ${choice}?`);
  const command = commands.get(name);
  if (command === undefined) return bad(`There is no command "${name}": it is ${choice}.`);
  const given = { ...nothingGiven, ...values };
  return misplaced(name, command.takes, given) ?? command.read(first, given);
}

type Option = keyof Words;

const nothingGiven = {
  ...{ store: undefined, takes: undefined, also: undefined, lane: undefined, leaning: undefined },
  ...{ answers: undefined, bars: undefined, take: undefined, why: undefined, copy: undefined },
};

const fitTakes = [
  ...(["json", "whole", "lane", "leaning", "answers"] as const),
  ...(["bars", "take", "why", "copy"] as const),
];

const commands = new Map<string, { readonly takes: readonly Option[]; readonly read: Reader }>([
  ["check", { takes: ["json", "ways"], read: readCheck }],
  ["fit", { takes: fitTakes, read: readFit }],
  ["copy", { takes: ["store"], read: readCopy }],
  ["backup", { takes: ["store", "json"], read: readWithFile("backup") }],
  ["restore", { takes: ["store", "json"], read: readWithFile("restore") }],
  ["verify", { takes: ["store", "json"], read: readAlone("verify") }],
  ["raise-epochs", { takes: ["store", "json"], read: readAlone("raise-epochs") }],
  ["export-member", { takes: ["store", "json", "takes"], read: readExport }],
  ["delete-member", { takes: ["store", "json", "also", "with-boards"], read: readDelete }],
]);

function readCheck(first: string | undefined, { json, ways }: Words): Reading<Command, string> {
  if (first === undefined) return bad("check needs a file, or - for the standard input.");
  return good({ kind: "check", file: first, json, ways });
}

function readFit(first: string | undefined, words: Words): Reading<Command, string> {
  const options = readFitOptions(first, words);
  return options.ok ? good({ kind: "fit", ...options.value }) : options;
}

function readCopy(first: string | undefined, { store }: Words): Reading<Command, string> {
  if (store === undefined) return bad("copy needs --store and a server's SQLite file.");
  return good({ kind: "copy", store, board: first });
}

function readWithFile(kind: "backup" | "restore"): Reader {
  return (file, { store, json }) => {
    if (file === undefined) return bad(`${kind} needs the backup's file.`);
    return store === undefined ? lacksStore(kind) : good({ kind, store, json, file });
  };
}

function readAlone(kind: "verify" | "raise-epochs"): Reader {
  return (first, { store, json }) =>
    first === undefined
      ? good({ kind, store, json })
      : bad(`${kind} takes the store of --store, and no "${first}".`);
}

function readExport(
  member: string | undefined,
  { store, json, takes }: Words,
): Reading<Command, string> {
  if (member === undefined) return bad("export-member needs a member's id.");
  return good({ kind: "export-member", store, json, member, takes });
}

function readDelete(member: string | undefined, words: Words): Reading<Command, string> {
  const { store, json, also = [], "with-boards": withBoards } = words;
  if (member === undefined) return bad("delete-member needs a member's id.");
  return good({ kind: "delete-member", store, json, member, also, withBoards });
}

function lacksStore(name: string): Reading<never, string> {
  return bad(`${name} needs --store and a server's folder.`);
}

/** An option that this command knows nothing to do with. */
function misplaced(
  name: string,
  takes: readonly Option[],
  words: Words,
): Reading<never, string> | undefined {
  const options: readonly Option[] = [...fitTakes, "store", "ways", "takes", "also", "with-boards"];
  const isGiven = (option: Option) => words[option] !== undefined && words[option] !== false;
  const wrong = options.find((option) => isGiven(option) && !takes.includes(option));
  return wrong === undefined ? undefined : bad(`${name} takes no --${wrong}.`);
}

/** A board's or a member's id that begins as an option does, as one in sixty-four does. */
const dashedId = /^-(?:[\w-]{15}|[\w-]{21})$/;

/** The words with such ids where they can't be taken for options. */
function withIdsApart(words: readonly string[]): readonly string[] {
  if (words.includes("--")) return words;
  const ids: string[] = [];
  const others: string[] = [];
  for (const word of words) {
    if (!dashedId.test(word)) others.push(word);
    else if (others.at(-1) === "--also") others.splice(-1, 1, `--also=${word}`);
    else ids.push(word);
  }
  return [...others, "--", ...ids];
}

function parse(words: readonly string[]) {
  try {
    const value = parseArgs({
      args: [...withIdsApart(words)],
      allowPositionals: true,
      options: {
        help: { type: "boolean", short: "h", default: false },
        version: { type: "boolean", default: false },
        json: { type: "boolean", default: false },
        ways: { type: "boolean", default: false },
        "with-boards": { type: "boolean", default: false },
        store: { type: "string" },
        takes: { type: "string" },
        also: { type: "string", multiple: true },
        lane: { type: "string" },
        leaning: { type: "string" },
        answers: { type: "string" },
        bars: { type: "string" },
        take: { type: "string" },
        whole: { type: "boolean", default: false },
        why: { type: "string" },
        copy: { type: "string" },
      },
    });
    return { ok: true, value } as const;
  } catch (fault) {
    const first = fault instanceof Error ? fault.message.split(". ")[0] : String(fault);
    return bad(`${first}.`);
  }
}

function good(value: Command): Reading<Command, string> {
  return { ok: true, value };
}

function bad(words: string): Reading<never, string> {
  return { ok: false, error: words };
}
