/** How long somebody waits for a large document: opened for the first time, and once more. */
import { once } from "node:events";
import { WebSocket } from "ws";
import { askForAll } from "./edits.ts";
import { largeBytes } from "./rooms.ts";
import type { Offer, Shared, Target } from "./target.ts";

export type FirstSync = { readonly coldMs: readonly number[]; readonly warmMs: readonly number[] };

/** Each large document twice, the second time while it is still open. */
export async function firstSync({ offer }: Target): Promise<FirstSync> {
  const coldMs: number[] = [];
  const warmMs: number[] = [];
  for (const document of offer.large) {
    const first = await synced(offer, document);
    coldMs.push(first.ms);
    const second = await synced(offer, document);
    warmMs.push(second.ms);
    first.socket.terminate();
    second.socket.terminate();
  }
  return { coldMs, warmMs };
}

async function synced({ address, origin }: Offer, { path, writerCookie }: Shared) {
  const startedAt = performance.now();
  const headers = { origin, cookie: writerCookie };
  const socket = new WebSocket(`${address}${path}?saved=1`, { headers });
  socket.once("open", () => socket.send(askForAll));
  for (;;) {
    const [bytes] = (await once(socket, "message")) as [Buffer];
    if (bytes[0] !== 0 || bytes[1] !== 1) continue;
    if (bytes.length < largeBytes * 0.8) throw new Error(`${path} came as ${bytes.length} bytes`);
    return { socket, ms: performance.now() - startedAt };
  }
}
