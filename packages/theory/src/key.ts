/** The key of a tune. */
import type { NoteName } from "./chord.ts";

export type Key = { readonly tonic: NoteName; readonly mode: "major" | "minor" };
