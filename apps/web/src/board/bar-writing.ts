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

/** A writer that is drawn anew takes up what it left here itself. */
export function createBarWriting() {
  const [writing, setWriting] = createSignal<BarId>();
  let keys: WriterKeys;
  return {
    writing,
    /** Opens the writer of a bar for somebody who asked for it; undefined closes it. */
    write(bar: BarId | undefined): void {
      if (bar !== writing()) keys = bar === undefined ? undefined : "asked";
      setWriting(bar);
    },
    typedChords: new Map<BarId, TypedChords>(),
    /** For the writer that is drawn now, and for no other after it. */
    takeWriterKeys(): WriterKeys {
      const taken = keys;
      keys = undefined;
      return taken;
    },
    /** The writer of another bar, opened meanwhile, keeps what it was asked. */
    leaveWriter(left: WriterKeys): void {
      if (keys !== "asked") keys = left;
    },
  };
}
