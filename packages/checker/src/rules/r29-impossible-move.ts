/** R29: the hand has too little time for its way. */
import type { PassageRule } from "../hit.ts";

/** The hand has too little time for its way. */
export const impossibleMove: PassageRule = () => [];
