/** R17: a lane jumps where a nearer grip lies at hand. */
import type { PassageRule } from "../hit.ts";

/** A lane jumps where a nearer grip lies at hand. */
export const jumpyLinking: PassageRule = () => [];
