/** R33: one part is too loud beside the other or the voice. */
import type { PassageRule } from "../hit.ts";

/** One part is too loud beside the other or the voice. */
export const balance: PassageRule = () => [];
