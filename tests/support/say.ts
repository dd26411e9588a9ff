/** Edits that a raw client makes in its own document and sends, and what is said to them. */
import type { RawClient } from "./raw-client.ts";

/** Sets a key in a client's own document and sends what that changed. */
export function say(client: RawClient, key: string, value: unknown): void {
  client.doc.once("update", (update: Uint8Array) => client.sendUpdate(update));
  client.doc.getMap("trial").set(key, value);
}

/** How many of a client's update frames are said to be decided. */
export function decidedOf(client: RawClient): number {
  return client.heard.reduce(
    (most, frame) => (frame.kind === "saved" ? Math.max(most, frame.decided) : most),
    0,
  );
}

/** Everything that `say` wrote, by key. */
export function saidIn(doc: RawClient["doc"]): Readonly<Record<string, unknown>> {
  return doc.getMap("trial").toJSON();
}
