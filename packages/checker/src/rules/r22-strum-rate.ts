/** R22: the strumming arm has to go very fast. */
import type { PassageRule } from "../hit.ts";

/** The strumming arm has to go very fast. */
export const strumRate: PassageRule = () => [];
