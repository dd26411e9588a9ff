/** Takes once the repair B29 of SPEC.md is made, and as the server writes them. */
import { fieldOf, isWhole } from "./decode.ts";
import { isStoredId, type MemberId, takeId } from "./ids.ts";
import { keptReading } from "./kept-reading.ts";
import { byId, type Table } from "./lane-store.ts";
import { takesMax } from "./limits.ts";
import { decodeTakeHead, type StoredTake, type Take } from "./take.ts";

/** What `talk` keeps of a take; `readTakes` reads it back. */
export function takeValue(take: StoredTake): Readonly<Record<string, unknown>> {
  const { from, at, name, bars, offsetMs, lengthMs, tempo } = take;
  return { from, at, head: { name, bars, offsetMs, lengthMs, tempo } };
}

/** B29: the takes, oldest first; whoever played one counts while a member. */
export function readTakes(
  stored: Table,
  members: readonly { readonly id: MemberId }[],
): readonly Take[] {
  const takes: Take[] = [];
  for (const key of [...stored.keys()].filter(isStoredId)) {
    const value = stored.get(key);
    const take = keptTake(key, value);
    if (take === undefined) continue;
    const from = members.find(({ id }) => id === fieldOf(value, "from"))?.id;
    takes.push({ ...take, from });
  }
  return takes.sort((a, b) => a.at - b.at || byId(a, b)).slice(0, takesMax);
}

const keptTake = keptReading((key, value): Omit<Take, "from"> | undefined => {
  const head = decodeTakeHead(fieldOf(value, "head"));
  const at = fieldOf(value, "at");
  if (!head.ok || !isWhole(at, 0, Number.MAX_SAFE_INTEGER)) return undefined;
  return { ...head.value, id: takeId(key), at };
});
