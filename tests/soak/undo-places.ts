/** What a document holds as places: each entry of a map, each value that a list holds. */
import * as Y from "yjs";

export type Places = ReadonlyMap<string, string>;

/**
 * What stands at each place of a root type, as text; a list is told by what it holds, in whatever
 * order.
 */
export function placesIn(root: string, type: unknown): Places {
  const places = new Map<string, string>();
  addType(places, root, type);
  return places;
}

/** The places of all roots, by the root's name. */
export function placesOf(doc: Y.Doc): Map<string, Places> {
  return new Map([...doc.share].map(([root, type]) => [root, placesIn(root, type)]));
}

/** The places at which two differ. */
export function differing(one: Places, other: Places): readonly string[] {
  const differ = [...one.keys()].filter((place) => one.get(place) !== other.get(place));
  return [...differ, ...[...other.keys()].filter((place) => !one.has(place))];
}

function addType(places: Map<string, string>, path: string, type: unknown): void {
  if (type instanceof Y.Array) {
    type.forEach((each: unknown) => {
      places.set(`${path}[${JSON.stringify(each)}]`, "held");
    });
  } else if (type instanceof Y.Map) {
    type.forEach((value: unknown, key: string) => {
      const place = `${path}.${key}`;
      if (value instanceof Y.AbstractType) addType(places, place, value);
      else places.set(place, JSON.stringify(value));
    });
  }
}
