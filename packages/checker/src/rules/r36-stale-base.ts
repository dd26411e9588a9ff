/** R36: a grip was chosen for a chord that has changed since. */
import type { BoardRule } from "../hit.ts";

/** A grip was chosen for a chord that has changed since. */
export const staleBase: BoardRule = () => [];
