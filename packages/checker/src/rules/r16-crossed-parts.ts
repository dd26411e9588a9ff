/** R16: the lower part lies above the upper one. */
import type { PassageRule } from "../hit.ts";

/** The lower part lies above the upper one. */
export const crossedParts: PassageRule = () => [];
