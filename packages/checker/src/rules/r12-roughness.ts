/** R12: the roughest sounds of the tune. */
import type { BoardRule } from "../hit.ts";

/** The roughest sounds of the tune. */
export const roughness: BoardRule = () => [];
