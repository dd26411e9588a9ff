/** R19: the rhythms lock, or leave too much empty. */
import type { PassageRule } from "../hit.ts";

/** The rhythms lock, or leave too much empty. */
export const interlock: PassageRule = () => [];
