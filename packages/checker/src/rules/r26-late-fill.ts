/** R26: a fill runs into what comes after its gap. */
import type { PassageRule } from "../hit.ts";

/** A fill runs into what comes after its gap. */
export const lateFill: PassageRule = () => [];
