/** The worker that makes a practice file; ending it cancels the work. */
import { encodeWav } from "@halflap/sound/wav";
import { encodeOpus } from "./opus-file.ts";
import { type FileWish, renderPracticeFile } from "./practice-file.ts";

/** What the page hears of the work. */
export type FileReport =
  | { readonly kind: "working"; readonly done: number }
  | { readonly kind: "ready"; readonly bytes: Uint8Array<ArrayBuffer> }
  | { readonly kind: "refused"; readonly why: "nothing" | "too-long" | "failed" };

/** How much of the work rendering is; the rest is writing, which only Opus has to wait for. */
const renderingShare = { wav: 1, opus: 0.8 } as const;

self.addEventListener("message", ({ data }: MessageEvent<FileWish>) => {
  make(data).catch(() => report({ kind: "refused", why: "failed" }));
});

async function make(wish: FileWish): Promise<void> {
  const share = renderingShare[wish.format];
  for (const step of renderPracticeFile(wish)) {
    if (step.kind === "working") report({ kind: "working", done: share * step.done });
    else if (step.kind === "refused") report(step);
    else {
      const written = (done: number) =>
        report({ kind: "working", done: share + (1 - share) * done });
      const { recording } = step;
      const bytes =
        wish.format === "opus" ? await encodeOpus(recording, written) : encodeWav(recording, 1);
      report({ kind: "ready", bytes: new Uint8Array(bytes) });
    }
  }
}

function report(step: FileReport): void {
  self.postMessage(step, step.kind === "ready" ? { transfer: [step.bytes.buffer] } : {});
}
