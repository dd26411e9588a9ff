/** Two honest pages at one document: one writes on and on, the other reads along. */
import type { DocumentName } from "@halflap/board/documents";
import type { BoardId } from "@halflap/wire/api";
import * as Y from "yjs";
import type { Visitor } from "./browser-session.ts";
import { inTime } from "./in-time.ts";
import { RawClient } from "./raw-client.ts";
import { say } from "./say.ts";

/** Slower than the server says `saved`, so that what is measured is not its pause between two. */
const paceMs = 120;

/** A busy machine needs seconds; who waits longer waits for what never comes. */
const patienceMs = 20_000;

export class HonestPair {
  readonly writer: RawClient;
  readonly reader: RawClient;
  /** How long each edit took to be acknowledged, in ms. */
  readonly acknowledgedMs: number[] = [];
  private readonly keys: string[] = [];

  private constructor(writer: RawClient, reader: RawClient) {
    this.writer = writer;
    this.reader = reader;
  }

  /** Both at the document, the writer under a client id of its own choice, the first edit made. */
  static async open(
    writer: Visitor,
    reader: Visitor,
    board: BoardId,
    document: DocumentName,
    client: number,
  ): Promise<HonestPair> {
    const [one, other] = [
      await RawClient.synced(writer, board, document),
      await RawClient.synced(reader, board, document),
    ];
    one.doc.clientID = client;
    const pair = new HonestPair(one, other);
    await pair.edit();
    return pair;
  }

  /**
   * Edits until something else is over. Rejects as soon as a line ends or the other's work does.
   */
  async workDuring(other: Promise<unknown>): Promise<void> {
    let isOver = false;
    const over = other.finally(() => {
      isOver = true;
    });
    const work = async () => {
      while (!isOver) {
        await Promise.all([this.edit(), paused(paceMs)]);
      }
    };
    await Promise.all([over, work()]);
  }

  /**
   * One edit: made, acknowledged, and seen by the reader, if only to be deleted. Rejects when a
   * line ends, or when it takes longer than a busy machine would need.
   */
  async edit(): Promise<void> {
    const number = this.keys.length + 1;
    await inTime(patienceMs, this.editOf(number), `edit ${number} is not heard of`);
  }

  /** The honest edits that a document does not have, or has otherwise than they were made. */
  lostIn(doc: Y.Doc): readonly string[] {
    return this.keys.filter((key, i) => doc.getMap("trial").get(key) !== i + 1);
  }

  async close(): Promise<void> {
    await Promise.all([this.writer.close(), this.reader.close()]);
  }

  private async editOf(number: number): Promise<void> {
    const key = `honest-${number}`;
    this.keys.push(key);
    const start = performance.now();
    const { doc } = this.writer;
    const place = Y.createID(doc.clientID, Y.getState(doc.store, doc.clientID));
    say(this.writer, key, number);
    await this.writer.until((frame) => frame.kind === "saved" && frame.decided >= number);
    this.acknowledgedMs.push(performance.now() - start);
    const read = this.reader.doc;
    await this.reader.until(
      () => read.getMap("trial").get(key) === number || wasTakenOut(read, place),
    );
  }
}

/**
 * Whether what was written at a place came and was deleted since: where others may do that, an edit
 * and its deletion may come in one frame. Clocks that were filled with nothing are no edit.
 */
function wasTakenOut(doc: Y.Doc, place: Y.ID): boolean {
  if (Y.getState(doc.store, place.client) <= place.clock) return false;
  const struct: unknown = Y.getItem(doc.store, place);
  return struct instanceof Y.Item && struct.deleted;
}

function paused(ms: number): Promise<void> {
  return new Promise((resolve) => {
    setTimeout(resolve, ms);
  });
}
