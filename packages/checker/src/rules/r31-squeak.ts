/** R31: a quiet shift along the wound strings squeaks. */
import type { PassageRule } from "../hit.ts";

/** A quiet shift along the wound strings squeaks. */
export const squeak: PassageRule = () => [];
