/** How the page scrolls to what somebody asks for. */

/** At once for whoever wants no motion. */
export function scrollManner(): ScrollBehavior {
  return matchMedia("(prefers-reduced-motion: reduce)").matches ? "instant" : "smooth";
}
