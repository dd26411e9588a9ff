/** R08: two low notes lie too close together. */
import type { SlotRule } from "../hit.ts";

/** Two low notes lie too close together. */
export const mud: SlotRule = () => [];
