/**
 * How far a room has read the log of its document, where several nodes write to it. The numbers of
 * rows are dense there, so a number that is left out is somebody else's row.
 */
import { type RowId, rowId } from "../store/log-port.ts";

export class LogPosition {
  private head: RowId;
  /** Rows beyond the head that are here: own ones, while others' before them are not. */
  private readonly beyond = new Set<number>();

  /** Everything up to this row is here. */
  constructor(head: RowId) {
    this.head = head;
  }

  /** The last row before which none is missing. */
  get reached(): RowId {
    return this.head;
  }

  /** Whether rows between the head and those beyond it are known to exist. */
  get hasGap(): boolean {
    return this.beyond.size > 0;
  }

  /** Whether a log that ends there has rows that are not here. */
  isBehind(head: RowId): boolean {
    return head > this.head;
  }

  /** Takes note of a row; false when it is here already. */
  add(row: RowId): boolean {
    if (row <= this.head || this.beyond.has(row)) return false;
    this.beyond.add(row);
    this.close();
    return true;
  }

  /** Takes note of all rows up to this one. */
  reach(row: RowId): void {
    if (row <= this.head) return;
    this.head = row;
    for (const each of this.beyond) if (each <= row) this.beyond.delete(each);
    this.close();
  }

  private close(): void {
    while (this.beyond.delete(this.head + 1)) this.head = rowId(this.head + 1);
  }
}
