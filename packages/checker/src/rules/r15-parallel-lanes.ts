/** R15: both parts move in octaves or unison. */
import type { PassageRule } from "../hit.ts";

/** Both parts move in octaves or unison. */
export const parallelLanes: PassageRule = () => [];
