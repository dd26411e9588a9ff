/** Where the others are in the tune, for whoever does not hear it. */
import { createMemo, createSignal, onCleanup } from "solid-js";
import type { BarInOrder } from "../order-of-play.ts";
import type { Bond } from "./bond.ts";
import { courseOf } from "./course.ts";
import { outlineOf, placeAt } from "./shared-place.ts";

/** The bar that sounds; undefined while it is counted in, or not yet known. */
export type SharedPlace = { readonly bar: BarInOrder | undefined };

/** How often it is looked at, in ms: a bar is shorter than this on no tune. */
const lookEveryMs = 200;

/** undefined where nothing is played together, or no longer. */
export function createPlace(bond: Bond): () => SharedPlace | undefined {
  const [tick, setTick] = createSignal(0);
  const timer = setInterval(() => bond.word() && setTick(tick() + 1), lookEveryMs);
  onCleanup(() => clearInterval(timer));
  const course = createMemo(() => {
    const word = bond.word();
    return word && courseOf(bond.timed(), word.play.loop);
  });
  return createMemo<SharedPlace | undefined>(
    () => {
      tick();
      const [word, now] = [bond.word(), course()];
      const outline = word && now && outlineOf(now, word.play);
      if (!outline) return undefined;
      const atMs = bond.nowThere();
      if (atMs === undefined) return { bar: undefined };
      const place = placeAt(outline, atMs);
      if (place === "over") return undefined;
      return { bar: place === "before" ? undefined : outline.bars[place.index] };
    },
    undefined,
    { equals: (a, b) => a === b || (a !== undefined && b !== undefined && a.bar === b.bar) },
  );
}
