/** Making a practice file in a worker of its own: how far it is, and how to leave it. */
import { createSignal, onCleanup } from "solid-js";
import type { FileReport } from "./file-worker.ts";
import type { FileFormat, FileWish } from "./practice-file.ts";
import { saveFile } from "./save-file.ts";

export type FileState =
  | { readonly kind: "idle" }
  | { readonly kind: "working"; readonly done: number }
  | { readonly kind: "saved"; readonly name: string }
  | { readonly kind: "refused"; readonly why: "nothing" | "too-long" | "failed" };

export type PracticeFile = ReturnType<typeof createPracticeFile>;

/** One file at a time. */
export function createPracticeFile() {
  const [state, setState] = createSignal<FileState>({ kind: "idle" });
  let worker: Worker | undefined;

  function end(next: FileState): void {
    worker?.terminate();
    worker = undefined;
    setState(next);
  }
  function make(wish: FileWish, name: string): void {
    end({ kind: "working", done: 0 });
    worker = new Worker(new URL("./file-worker.ts", import.meta.url), { type: "module" });
    worker.onerror = () => end({ kind: "refused", why: "failed" });
    worker.onmessage = ({ data: step }: MessageEvent<FileReport>) => {
      if (step.kind !== "ready") return step.kind === "working" ? setState(step) : end(step);
      saveFile(new Blob([step.bytes], { type: mediaTypes[wish.format] }), name);
      end({ kind: "saved", name });
    };
    worker.postMessage(wish);
  }
  onCleanup(() => worker?.terminate());
  return { state, make, cancel: () => end({ kind: "idle" }) };
}

const mediaTypes: Readonly<Record<FileFormat, string>> = {
  wav: "audio/wav",
  opus: "audio/ogg; codecs=opus",
};
