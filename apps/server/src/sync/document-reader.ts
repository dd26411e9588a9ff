/**
 * Documents as they come out of the log: read through, merged where they are long, and refused
 * where they can't be read.
 */
import type { DocumentKey, StoredDocument, StoredRow, UpdateLog } from "../store/log-port.ts";
import { foldingHere } from "./folding-here.ts";
import { type Folding, Unreadable } from "./folding-port.ts";
import { type Quarantine, SetAside } from "./quarantine.ts";

export type ReadDocument = {
  /** Sound, and one row at most. */
  readonly stored: StoredDocument;
  /** How many rows it has in the log. */
  readonly rows: number;
};

export type ReaderPorts = {
  readonly log: Pick<UpdateLog, "load">;
  readonly folding: Folding;
  readonly quarantine: Quarantine;
};

/** With more rows or bytes than this a document is merged beside the thread that serves. */
const shortRowsMax = 64;
const shortBytesMax = 256 * 1024;

/** One for the process; remembers nothing itself. */
export class DocumentReader {
  private readonly ports: ReaderPorts;

  constructor(ports: ReaderPorts) {
    this.ports = ports;
  }

  /**
   * A document of the log, as one row. Rejects with SetAside when it can't be read, or was set
   * aside before; and with what the store rejects with.
   */
  async read(key: DocumentKey): Promise<ReadDocument> {
    const { log, quarantine } = this.ports;
    if (quarantine.holds(key)) throw new SetAside();
    const stored = await log.load(key);
    const rows = stored.rows.length;
    if (rows === 0) {
      quarantine.release(key);
      return { stored, rows };
    }
    const update = await this.whole(key, stored.rows);
    return { stored: { ...stored, rows: [{ id: stored.head, update }] }, rows };
  }

  private async whole(key: DocumentKey, rows: readonly StoredRow[]): Promise<Uint8Array> {
    const { folding, quarantine } = this.ports;
    try {
      const whole = await (isShort(rows) ? foldingHere : folding).merge(updatesOf(rows));
      quarantine.release(key);
      return whole;
    } catch (fault) {
      if (!(fault instanceof Unreadable)) throw fault;
      quarantine.enter(key, fault);
      throw new SetAside({ cause: fault });
    }
  }
}

/** What the rows hold, in their order. */
export function updatesOf(rows: readonly StoredRow[]): readonly Uint8Array[] {
  return rows.map(({ update }) => update);
}

function isShort(rows: readonly StoredRow[]): boolean {
  const bytes = rows.reduce((sum, { update }) => sum + update.length, 0);
  return rows.length <= shortRowsMax && bytes <= shortBytesMax;
}
