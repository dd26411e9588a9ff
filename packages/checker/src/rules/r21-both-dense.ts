/** R21: both parts strum densely. */
import type { PassageRule } from "../hit.ts";

/** Both parts strum densely. */
export const bothDense: PassageRule = () => [];
