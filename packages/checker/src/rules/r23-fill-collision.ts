/** R23: both parts fill at once. */
import type { PassageRule } from "../hit.ts";

/** Both parts fill at once. */
export const fillCollision: PassageRule = () => [];
