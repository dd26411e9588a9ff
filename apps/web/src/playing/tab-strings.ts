/** The strings of a tab. */
import type { StringNumber } from "@halflap/theory/grip";

/** As a tab shows them, the highest on top. */
export const tabStrings: readonly StringNumber[] = [1, 2, 3, 4, 5, 6];
