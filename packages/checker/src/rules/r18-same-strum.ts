/** R18: both parts strum the same rhythm. */
import type { PassageRule } from "../hit.ts";

/** Both parts strum the same rhythm. */
export const sameStrum: PassageRule = () => [];
