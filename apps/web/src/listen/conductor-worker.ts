/** The conductor's worker: requests from the page, positions from the player. */
import { Conductor } from "./conductor.ts";
import type { Numbered, Position, Report, Request } from "./player-messages.ts";

let conductor: Conductor | undefined;
/** Of the newest request to play or stop: what is reported is told under it. */
let number = 0;

/** The first message brings the line to the player and its sample rate. */
type First = { readonly sampleRate: number };

type Heard = MessageEvent<First | Numbered<Request>>;

self.addEventListener("message", ({ data, ports: [line] }: Heard) => {
  if ("what" in data) {
    const { what } = data;
    // With an edit or a wish the same goes on, whatever the page waits for by then.
    if (what.kind !== "board" && what.kind !== "wishes") number = data.number;
    conductor?.ask(what);
  } else if (line !== undefined) {
    const lead = new Conductor(
      data.sampleRate,
      (order) => line.postMessage(order),
      (what) => self.postMessage({ what, number } satisfies Numbered<Report>),
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
