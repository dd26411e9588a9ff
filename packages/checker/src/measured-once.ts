/** Measures that are taken once of each thing: a passage is asked again after every edit. */

/** The measure, remembered as long as the thing is; it may depend on nothing else. */
export function measuredOnce<Thing extends object, Measure>(
  measure: (thing: Thing) => Measure,
): (thing: Thing) => Measure {
  const known = new WeakMap<Thing, { readonly taken: Measure }>();
  return (thing) => {
    const last = known.get(thing);
    if (last !== undefined) return last.taken;
    const taken = measure(thing);
    known.set(thing, { taken });
    return taken;
  };
}
