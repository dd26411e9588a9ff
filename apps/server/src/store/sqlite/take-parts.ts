/**
 * The sound of takes in SQLite, in parts: of a long value SQLite reads all, however little of it is
 * asked for.
 */
import type { Database } from "better-sqlite3";
import type { ByteRange } from "../takes-port.ts";

/** As the step of the schema cuts those that were there before. */
const partBytes = 128 * 1024;

/** Writes the sound of a take whose row stands, inside a transaction of the caller's. */
export function partsWriter(db: Database): (take: string, sound: Uint8Array) => void {
  const insert = db.prepare("INSERT INTO take_parts (take, start, data) VALUES (?, ?, ?)");
  return (take, sound) => {
    for (let start = 0; start < sound.length; start += partBytes) {
      insert.run(take, start, sound.subarray(start, start + partBytes));
    }
  };
}

/** Reads a part of a take's sound, or all; nothing where there is none. */
export function partsReader(db: Database) {
  const within = db.prepare<[string, number, number], { start: number; data: Buffer }>(
    "SELECT start, data FROM take_parts WHERE take = ? AND start > ? AND start < ? ORDER BY start",
  );
  return (take: string, range?: ByteRange): Uint8Array<ArrayBuffer> => {
    const { start, length } = range ?? { start: 0, length: Number.MAX_SAFE_INTEGER };
    const parts = within.all(take, start - partBytes, start + length);
    const skipped = start - (parts[0]?.start ?? start);
    const together = Buffer.concat(parts.map(({ data }) => data));
    return new Uint8Array(together.subarray(skipped, skipped + length));
  };
}
