/** R28: a player has much to do while singing. */
import type { PassageRule } from "../hit.ts";

/** A player has much to do while singing. */
export const busySinging: PassageRule = () => [];
