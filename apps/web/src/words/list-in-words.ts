/** Names one after another, as one says them. */

/** "Ada", "Ada and Ben", "Ada, Ben and Cleo". */
export function listInWords(names: readonly string[]): string {
  const last = names.at(-1) ?? "";
  return names.length < 2 ? last : `${names.slice(0, -1).join(", ")} and ${last}`;
}
