/** R20: two strokes meant as one fall just apart. */
import type { PassageRule } from "../hit.ts";

/** Two strokes meant as one fall just apart. */
export const flam: PassageRule = () => [];
