/** R14: a grip is held as if the capo were not there. */
import type { SlotRule } from "../hit.ts";

/** A grip is held as if the capo were not there. */
export const capoMismatch: SlotRule = () => [];
