/** Scrolling one element by itself, so that a page that is on its way elsewhere is not stopped. */

/** What stays free above and below what is shown, in CSS pixels: a heading, or the next entry. */
const margin = 64;

/** Scrolls as little as brings the element into the scroller, its top first. */
export function showWithin(scroller: Element, element: Element): void {
  const frame = scroller.getBoundingClientRect();
  const inside = element.getBoundingClientRect();
  const above = inside.top - margin - frame.top;
  const below = inside.bottom + margin - frame.bottom;
  if (above < 0) scroller.scrollTop += above;
  else if (below > 0) scroller.scrollTop += Math.min(below, above);
}
