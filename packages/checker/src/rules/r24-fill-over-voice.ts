/** R24: a fill sounds under the voice. */
import type { PassageRule } from "../hit.ts";

/** A fill sounds under the voice. */
export const fillOverVoice: PassageRule = () => [];
