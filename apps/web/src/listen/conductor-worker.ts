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
    let newest = 0;
    let isWaiting = false;
    // After long work words of the player have piled up: only the last still holds.
    line.onmessage = ({ data: { sample } }: MessageEvent<Position>) => {
      newest = sample;
      if (isWaiting) return;
      isWaiting = true;
      setTimeout(() => {
        isWaiting = false;
        lead.hear(newest);
      });
    };
    conductor = lead;
  }
});
