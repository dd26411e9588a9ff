/**
 * The log of a store in memory as nodes share one: the rows of each document are numbered on their
 * own, without a gap.
 */
import { type DocumentKey, type RowId, rowId, type UpdateLog } from "@halflap/server/log-port";

/** The same log under such numbers. */
export function sharedLog(log: UpdateLog): UpdateLog {
  const documents = new Map<string, number[]>();
  const rowsOf = ({ board, document }: DocumentKey): number[] => {
    const name = `${board}/${document}`;
    const rows = documents.get(name) ?? [];
    documents.set(name, rows);
    return rows;
  };
  const inside = (key: DocumentKey, row: RowId) => rowId(rowsOf(key)[row - 1] ?? 0);
  const outside = (key: DocumentKey, row: RowId) => {
    const rows = rowsOf(key);
    if (row > 0 && row > (rows.at(-1) ?? 0)) rows.push(row);
    return rowId(rows.indexOf(row) + 1);
  };
  return {
    ...log,
    append: async (rows) => {
      const decided = await log.append(rows);
      return decided.map((one, i) => {
        const key = rows[i]?.key;
        if (one.kind !== "stored" || key === undefined) return one;
        return { ...one, row: outside(key, one.row) };
      });
    },
    load: async (key) => {
      const { rows, bindings, head } = await log.load(key);
      return {
        rows: rows.map((row) => ({ ...row, id: outside(key, row.id) })),
        bindings,
        head: outside(key, head),
      };
    },
    since: async (key, after) => {
      const since = await log.since(key, inside(key, after));
      if (since.kind === "compacted") return since;
      return { ...since, rows: since.rows.map((row) => ({ ...row, id: outside(key, row.id) })) };
    },
    heads: async (keys) => {
      const heads = await log.heads(keys);
      return keys.map((key, i) => outside(key, heads[i] ?? rowId(0)));
    },
    compact: (key, last, snapshot) => log.compact(key, inside(key, last), snapshot),
  };
}
