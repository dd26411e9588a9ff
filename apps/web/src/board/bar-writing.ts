/** The bar whose chords are written, what is typed for it, and whether its field takes the keys. */
import type { BarId } from "@halflap/board/board";
import { createSignal } from "solid-js";

/** What is being typed, and what stood in the bar when that began. */
export type TypedChords = { readonly text: string; readonly from: string };

/**
 * What a writer that is drawn does with the keys: it was asked for and takes them, or it is drawn
 * anew and its field had them, with the caret there, or (undefined) they stay where they are.
 */
export type WriterKeys = "asked" | { readonly start: number; readonly end: number } | undefined;

/** A writer that is drawn anew takes up what another left here. */
export function createBarWriting() {
  const [writing, setWriting] = createSignal<BarId>();
  let keys: WriterKeys;
  return {
    writing,
    /** Opens the writer of a bar for somebody who asked for it; undefined closes it. */
    write(bar: BarId | undefined): void {
      keys = "asked";
      setWriting(bar);
    },
    typedChords: new Map<BarId, TypedChords>(),
    writerKeys: () => keys,
    leaveWriter: (left: WriterKeys) => {
      keys = left;
    },
  };
}
