/** The worker that makes a practice file; ending it cancels the work. */
import { type FileWish, makePracticeFile } from "./practice-file.ts";

self.addEventListener("message", ({ data }: MessageEvent<FileWish>) => {
  for (const step of makePracticeFile(data)) {
    self.postMessage(step, step.kind === "ready" ? { transfer: [step.bytes.buffer] } : {});
  }
});
