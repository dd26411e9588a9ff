/** R25: the voice leaves gaps that nobody fills. */
import type { PassageRule } from "../hit.ts";

/** The voice leaves gaps that nobody fills. */
export const emptyGap: PassageRule = () => [];
