/** Takes as both kinds of store hold them: columns of their own, and what was said as JSON. */
import { takeId } from "@halflap/board/ids";
import { decodeTakeHead, type TakeHead } from "@halflap/board/take";
import { memberId } from "@halflap/board/talk";
import { soundTypes, type TakeCard } from "@halflap/wire/api";
import { takeBytesPerBoardMax, takesPerBoardMax } from "@halflap/wire/limits";

export type TakeRow = {
  readonly id: string;
  readonly member: string;
  readonly at: number;
  readonly head: string;
  readonly type: string;
  readonly size: number;
};

/** The columns of a row without its sound, in the order of `takeValues`. */
export const takeColumns = "id, member, at, head, type, size";

/** A card's values for those columns. */
export function takeValues(card: TakeCard, bytes: number) {
  const { id, from, at, type, name, bars, offsetMs, lengthMs, tempo } = card;
  const head = JSON.stringify({ name, bars, offsetMs, lengthMs, tempo });
  return [id, from, at, head, type, bytes] as const;
}

/** What was said about a take; undefined when it can't be read: the store was damaged. */
export function headOf(text: string): TakeHead | undefined {
  try {
    const read = decodeTakeHead(JSON.parse(text));
    return read.ok ? read.value : undefined;
  } catch {
    return undefined;
  }
}

/** The card of a row; undefined for one that can't be read, which \`verify\` names. */
export function cardOf({ id, member, at, head, type, size }: TakeRow): TakeCard | undefined {
  const said = headOf(head);
  const known = soundTypes.find((each) => each === type);
  if (said === undefined || known === undefined) return undefined;
  return { ...said, id: takeId(id), from: memberId(member), at, type: known, size };
}

/** What a board holds of takes already. */
export type HeldTakes = { readonly count: number; readonly bytes: number };

/** Whether a take of so many bytes is more than a board may hold. */
export function isTooMuch({ count, bytes }: HeldTakes, more: number): boolean {
  return count >= takesPerBoardMax || bytes + more > takeBytesPerBoardMax;
}
