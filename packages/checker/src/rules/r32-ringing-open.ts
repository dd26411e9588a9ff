/** R32: an open string rings on into a chord that does not want it. */
import type { PassageRule } from "../hit.ts";

/** An open string rings on into a chord that does not want it. */
export const ringingOpen: PassageRule = () => [];
