/**
 * Small things this browser remembers between visits, each under one name, read back with
 * suspicion.
 */

/** A remembered value, or undefined where there is none, or one that `decode` does not accept. */
export function remembered<T>(
  name: string,
  decode: (value: unknown) => T | undefined,
): T | undefined {
  try {
    const text = localStorage.getItem(storedName(name));
    return text === null ? undefined : decode(JSON.parse(text));
  } catch {
    return undefined; // no storage, or not ours
  }
}

/** Remembers a value, or forgets the name; false when the browser has no room for it. */
export function remember(name: string, value: unknown): boolean {
  try {
    if (value === undefined) localStorage.removeItem(storedName(name));
    else localStorage.setItem(storedName(name), JSON.stringify(value));
    return true;
  } catch {
    return false;
  }
}

/** Calls when another tab remembers something else under a name; until the end that it gives. */
export function whenRememberedElsewhere(name: string, call: () => void): () => void {
  const onStorage = ({ key }: StorageEvent) => {
    if (key === storedName(name)) call();
  };
  addEventListener("storage", onStorage);
  return () => removeEventListener("storage", onStorage);
}

/** Decodes a text and nothing else. */
export function textValue(value: unknown): string | undefined {
  return typeof value === "string" ? value : undefined;
}

function storedName(name: string): string {
  return `halflap:${name}`;
}
