/** The voice under a line of bars: what is sung, the gaps between, and whose they are. */
import type { Bar } from "@halflap/board/board";

/** A row of the board's grid; nothing where nobody sings. */
export function VoiceRow(_: { readonly bars: readonly Bar[] }) {
  return null;
}
