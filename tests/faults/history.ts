/** What happened in a run, as it was seen from outside, in the order in which it was seen. */
import type { DocumentName } from "@halflap/board/documents";
import type { Deleted } from "./own-deletions.ts";

export type HistoryEvent = {
  /** Milliseconds since the run began. */
  readonly atMs: number;
} & (
  | {
      readonly kind: "edit";
      readonly page: string;
      readonly document: DocumentName;
      /** What the edit wrote into the order, once in the whole run. */
      readonly edit: string;
      readonly client: number;
      /** Its content lies below this clock of the client. */
      readonly end: number;
    }
  | {
      readonly kind: "deletion";
      readonly page: string;
      readonly document: DocumentName;
      /** A name that nothing else in the run has. */
      readonly deletion: string;
      readonly deleted: readonly Deleted[];
    }
  /** The page takes a deletion for saved, by what the node told it. */
  | {
      readonly kind: "deletion-saved";
      readonly page: string;
      readonly node: number;
      readonly socket: number;
      readonly deletion: string;
    }
  /** A frame that brought edits to a node, the first time or again. */
  | {
      readonly kind: "sent";
      readonly page: string;
      readonly node: number;
      /** The socket's number, new for each connection of the run. */
      readonly socket: number;
      readonly edits: readonly string[];
    }
  | {
      readonly kind: "saved";
      readonly page: string;
      readonly document: DocumentName;
      readonly node: number;
      readonly socket: number;
      /** By client id, the clocks that the node says are on the disk. */
      readonly clocks: ReadonlyMap<number, number>;
      readonly decided: number;
    }
  | {
      readonly kind: "received";
      readonly page: string;
      readonly node: number;
      readonly socket: number;
      readonly frame: string;
      readonly bytes: number;
    }
  | {
      readonly kind: "refused";
      readonly page: string;
      readonly node: number;
      readonly socket: number;
      readonly why: string;
      /** Whether the page had edits that it was not told to be saved. */
      readonly hasOwn: boolean;
    }
  | {
      readonly kind: "closed";
      readonly page: string;
      readonly node: number;
      readonly socket: number;
      readonly code: number;
    }
  | { readonly kind: "fault" | "healed"; readonly what: string }
  /** From here on a node can't reach the store, until it is said that it may again. */
  | { readonly kind: "store-gone" | "store-back"; readonly node: number }
);

type Untimed<Event> = Event extends HistoryEvent ? Omit<Event, "atMs"> : never;

/** Grows with the run. */
export class History {
  readonly events: HistoryEvent[];
  private readonly start = performance.now();

  constructor(events: HistoryEvent[] = []) {
    this.events = events;
  }

  note(event: Untimed<HistoryEvent>): void {
    this.events.push({ ...event, atMs: Math.round(performance.now() - this.start) });
  }

  /** Those of one kind. */
  of<Kind extends HistoryEvent["kind"]>(kind: Kind): Extract<HistoryEvent, { kind: Kind }>[] {
    return this.events.filter(
      (event): event is Extract<HistoryEvent, { kind: Kind }> => event.kind === kind,
    );
  }
}
