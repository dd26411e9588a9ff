/** R34: something is missing in the form or in a lane. */
import type { BoardRule } from "../hit.ts";

/** Something is missing in the form or in a lane. */
export const formGaps: BoardRule = () => [];
