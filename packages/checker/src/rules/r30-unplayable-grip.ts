/** R30: a grip needs too many fingers or too wide a hand. */
import type { SlotRule } from "../hit.ts";

/** A grip needs too many fingers or too wide a hand. */
export const unplayableGrip: SlotRule = () => [];
