/** R09: the guitars sound where the bass player does. */
import type { SlotRule } from "../hit.ts";

/** The guitars sound where the bass player does. */
export const bassZone: SlotRule = () => [];
