/**
 * Documents that can't be read, set aside one by one so that nothing else suffers: they are refused
 * without being touched, and looked at again after a while.
 */
import type { DocumentName } from "@halflap/board/documents";
import type { DocumentKey } from "../store/log-port.ts";
import { nameOf } from "./batch.ts";

/** How long a document is left alone before it is read again. */
export const quarantineMs = 5 * 60_000;

/** Documents remembered at once; one that is forgotten is read again when somebody wants it. */
const rememberedMax = 1_000;

/** This document is set aside; its rows are kept as they are. */
export class SetAside extends Error {
  override readonly name = "SetAside";

  constructor(options?: ErrorOptions) {
    super("this document can't be read and is set aside", options);
  }
}

export type QuarantinePorts = {
  /** Milliseconds that never go back. */
  readonly clock: () => number;
  /** Told about each document that is set aside, and why. */
  readonly onSetAside: (key: DocumentKey, fault: unknown) => void;
};

type Entry = { readonly document: DocumentName; readonly until: number };

/** One for the process, in memory only: a start begins anew. */
export class Quarantine {
  private readonly entries = new Map<string, Entry>();
  private readonly ports: QuarantinePorts;

  constructor(ports: QuarantinePorts) {
    this.ports = ports;
  }

  /** Whether a document is to be refused without being read. */
  holds(key: DocumentKey): boolean {
    const until = this.entries.get(nameOf(key))?.until;
    return until !== undefined && this.ports.clock() < until;
  }

  /** Sets a document aside from now on. */
  enter(key: DocumentKey, fault: unknown): void {
    const name = nameOf(key);
    this.entries.delete(name);
    this.entries.set(name, {
      document: key.document,
      until: this.ports.clock() + quarantineMs,
    });
    const [oldest] = this.entries.keys();
    if (this.entries.size > rememberedMax && oldest !== undefined) this.entries.delete(oldest);
    this.ports.onSetAside(key, fault);
  }

  /** Takes note that a document could be read. */
  release(key: DocumentKey): void {
    this.entries.delete(nameOf(key));
  }

  /** How many are set aside, by the documents' name; those too whose time to be tried has come. */
  counts(): ReadonlyMap<DocumentName, number> {
    const counts = new Map<DocumentName, number>();
    for (const { document } of this.entries.values()) {
      counts.set(document, (counts.get(document) ?? 0) + 1);
    }
    return counts;
  }
}
