/** What the disk or the database did to a command, in words that say what to do about it. */
import { StoreAway, StoreFull } from "../../store/log-port.ts";
import { messageOf } from "./place.ts";

/** By how its code begins: the system's, SQLite's or PostgreSQL's. */
const advices: readonly (readonly [RegExp, string])[] = [
  [/^(ENOSPC|EDQUOT|SQLITE_FULL|53100)/, "Make room on the disk, and give the command again."],
  [
    /^(ENOENT|ENOTDIR|SQLITE_CANTOPEN)/,
    "Look whether the folder is there, and who may write in it.",
  ],
  [/^(EACCES|EPERM|EROFS|SQLITE_READONLY|SQLITE_PERM|42501)/, "Look who may read and write there."],
  [/^(EEXIST|EISDIR)/, "Name another place; nothing that is there is replaced."],
  [/^(SQLITE_BUSY|SQLITE_LOCKED)/, "Somebody else has the store; try again in a moment."],
  [
    /^(SQLITE_CORRUPT|SQLITE_NOTADB)/,
    "The file is damaged; go back to a backup that verify can read.",
  ],
  [/^(EIO|SQLITE_IOERR)/, "Look after the disk, and give the command again."],
];

/** Sentences for the person; undefined for what is a bug of the program's. */
export function machineWords(fault: unknown): string | undefined {
  if (fault instanceof StoreFull) return wordsFor("ENOSPC", fault);
  if (fault instanceof StoreAway) return wordsFor("", fault);
  const code = fault instanceof Error && "code" in fault ? fault.code : undefined;
  const isOwn = typeof code !== "string" || code.startsWith("ERR_");
  return isOwn ? undefined : wordsFor(code, fault);
}

function wordsFor(code: string, fault: unknown): string {
  const other = "Look whether the store can be reached, and give the command again.";
  const advice = advices.find(([pattern]) => pattern.test(code))?.[1] ?? other;
  return `That can't be done: ${messageOf(fault)}. ${advice}`;
}
