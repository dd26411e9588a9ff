/** The conductor's worker: requests from the page, positions from the player. */
import { Conductor } from "./conductor.ts";
import type { Position, Request } from "./player-messages.ts";

let conductor: Conductor | undefined;

/** The first message brings the line to the player and its sample rate. */
type First = { readonly sampleRate: number };

self.addEventListener("message", ({ data, ports: [line] }: MessageEvent<First | Request>) => {
  if ("kind" in data) {
    conductor?.ask(data);
  } else if (line !== undefined) {
    const lead = new Conductor(
      data.sampleRate,
      (order) => line.postMessage(order),
      (report) => self.postMessage(report),
    );
    line.onmessage = (event: MessageEvent<Position>) => lead.hear(event.data.sample);
    conductor = lead;
  }
});
