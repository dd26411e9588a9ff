/** R27: the guitars are busy where the voice sits. */
import type { PassageRule } from "../hit.ts";

/** The guitars are busy where the voice sits. */
export const vocalMasking: PassageRule = () => [];
