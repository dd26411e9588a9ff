/** What of a board its sound and findings depend on, to tell whether it is still the same. */
import type { Bar, Board, Lane } from "@halflap/board/board";

/** Reads live what can change an answer: the wishes too, but no proposal and no name. */
export function boardStamp(board: Board): readonly unknown[] {
  const { key, tempo, meter, feel, hasBass, countIn, ending, blueNotes, distorted } = board;
  return [
    ...[key, tempo, meter, feel, hasBass, countIn, ending, blueNotes, distorted],
    ...[board.aims, board.limits],
    ...[board.silences, board.voices, board.phrases, board.gapOwners, board.form].flatMap(fields),
    ...board.sections.flatMap(({ id, bars }) => [id, ...bars.flatMap(barStamp)]),
    ...laneStamp(board.lanes.upper),
    ...laneStamp(board.lanes.lower),
  ];
}

/** Whether two stamps are of boards that can't be told apart by what is worked out of them. */
export function sameStamp(a: readonly unknown[], b: readonly unknown[]): boolean {
  return a.length === b.length && a.every((value, index) => value === b[index]);
}

/** A list tells its reader who is in it; what each of them says has to be read as well. */
function fields(items: readonly object[]): readonly unknown[] {
  return items.flatMap((item) => Object.values(item));
}

function barStamp({ id, length, rounds, slots }: Bar): readonly unknown[] {
  return [id, length, rounds, ...slots.flatMap((slot) => [slot.id, slot.start, slot.text])];
}

function laneStamp(lane: Lane): readonly unknown[] {
  const { owner: _owner, marks: _marks, ...rest } = lane;
  return Object.values(rest);
}
