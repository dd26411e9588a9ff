/** Whether a line's pictures are drawn: near the window, and wherever it is on paper. */
import { type Accessor, createContext, onCleanup, useContext } from "solid-js";
import { createUnhurried } from "./unhurried.ts";

const DrawnContext = createContext<Accessor<boolean>>(() => true);

/** Says to the pictures inside whether they are drawn. */
export const DrawnProvider = DrawnContext.Provider;

/** Whether a picture is drawn; always true where nobody said otherwise. */
export function useDrawn(): Accessor<boolean> {
  return useContext(DrawnContext);
}

/** A ref for an element: tells whether any of it is within a screen of the window. */
export function whenNear(tell: (isNear: boolean) => void): (element: Element) => void {
  return (element) => {
    const watcher = new IntersectionObserver(
      (entries) => tell(entries.at(-1)?.isIntersecting ?? false),
      { rootMargin: "100% 0px" },
    );
    watcher.observe(element);
    onCleanup(() => watcher.disconnect());
  };
}

/**
 * Pictures are more than half of a board's elements: those out of sight are not made. They come and
 * go in turn, before they are in sight, and at once for a print.
 */
export function createDrawn(
  isNear: Accessor<boolean>,
  isPrinted: Accessor<boolean>,
): Accessor<boolean> {
  return createUnhurried(() => isNear() || isPrinted(), isPrinted);
}
