/** Work that waits for the next frame, and lists that come a few at a time. */
import { type Accessor, createEffect, createMemo, createSignal, onCleanup } from "solid-js";

/** As many entries as a frame has time to lay out and paint. */
const perFrame = 3;

/** Runs after the next frame is on the screen, unless what asked for it is gone or asks anew. */
export function afterPaint(run: () => void): void {
  let timer: ReturnType<typeof setTimeout> | undefined;
  const frame = requestAnimationFrame(() => {
    timer = setTimeout(run);
  });
  onCleanup(() => {
    cancelAnimationFrame(frame);
    clearTimeout(timer);
  });
}

/** Grows to `goal` a few with each frame, and from a few again whenever `whole` is another. */
export function createGrowing(whole: Accessor<unknown>, goal: Accessor<number>): Accessor<number> {
  const growing = createMemo(() => {
    whole();
    const [grown, setGrown] = createSignal(perFrame);
    createEffect(() => {
      if (grown() < goal()) afterPaint(() => setGrown((before) => before + perFrame));
    });
    return grown;
  });
  return () => Math.min(growing()(), goal());
}
