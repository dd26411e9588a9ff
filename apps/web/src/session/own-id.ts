/** Ids for what this browser makes: 96 random bits, so that two browsers never make the same. */

const idBytes = 12;

/** A new id of 24 hexadecimal digits. */
export function makeId(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(idBytes));
  return [...bytes].map((byte) => byte.toString(16).padStart(2, "0")).join("");
}
