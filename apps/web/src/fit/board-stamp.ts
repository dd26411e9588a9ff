/** What of a board a fit depends on, to tell whether it is still the same. */
import type { Bar, Board, Lane } from "@halflap/board/board";

/** Reads live what can change an answer: the wishes too, but no proposal and no name. */
export function boardStamp(board: Board): readonly unknown[] {
  const { key, tempo, meter, feel, hasBass, blueNotes, distorted } = board;
  return [
    ...[key, tempo, meter, feel, hasBass, blueNotes, distorted],
    ...[board.aims, board.limits],
    ...board.silences,
    ...board.voices.flatMap((voice) => Object.values(voice)),
    ...board.phrases.flatMap((phrase) => Object.values(phrase)),
    ...board.form.flatMap(({ section, times, singers }) => [section, times, singers]),
    ...board.sections.flatMap(({ id, bars }) => [id, ...bars.flatMap(barStamp)]),
    ...laneStamp(board.lanes.upper),
    ...laneStamp(board.lanes.lower),
  ];
}

/** Whether two stamps are of boards that a fit can't tell apart. */
export function sameStamp(a: readonly unknown[], b: readonly unknown[]): boolean {
  return a.length === b.length && a.every((value, index) => value === b[index]);
}

function barStamp({ id, length, rounds, slots }: Bar): readonly unknown[] {
  return [id, length, rounds, ...slots.flatMap((slot) => [slot.id, slot.start, slot.text])];
}

function laneStamp(lane: Lane): readonly unknown[] {
  const { owner: _owner, marks: _marks, ...rest } = lane;
  return Object.values(rest);
}
