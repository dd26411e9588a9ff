/**
 * What every Board must be, by rules of its own that share nothing with the reading of documents.
 */
import type { Bar, Board, Lane } from "@halflap/board/board";

type Must = (holds: boolean, words: string) => void;

/** A sentence for each thing that is wrong with a board; none when it is valid. */
export function faultsOf(board: Board): readonly string[] {
  const faults: string[] = [];
  const must: Must = (holds, words) => {
    if (!holds) faults.push(words);
  };
  checkSettings(board, must);
  checkSections(board, must);
  const bars = board.sections.flatMap((section) => section.bars);
  for (const [i, bar] of bars.entries()) checkBar(bar, i + 1, must);
  checkForm(board, must);
  checkSetAside(board, must);
  for (const lane of Object.values(board.lanes)) checkLane(lane, board, must);
  return faults;
}

function checkSettings(board: Board, must: Must): void {
  must(board.tempo >= 20 && board.tempo <= 400, "the tempo can be played");
  must(/^[A-G](#|b){0,2}$/.test(board.key.tonic), "the key has a tonic");
  must([2, 4, 8, 16].includes(board.meter.unit) && board.meter.beats >= 1, "the meter is one");
}

function checkSections(board: Board, must: Must): void {
  const bars = board.sections.flatMap((section) => section.bars);
  const sections = board.sections.map(({ id }) => id);
  must(unique(sections), "sections have ids of their own");
  must(unique(bars.map(({ id }) => id)), "bars have ids of their own");
  must(unique(bars.flatMap(({ slots }) => slots.map(({ id }) => id))), "slots have own ids");
  must(bars.length <= 512 && sections.length <= 64, "a board is bounded");
  for (const { id, borrows } of board.sections) {
    const direct = borrows === undefined || (sections.includes(borrows) && borrows !== id);
    must(direct, `section ${id} borrows from another one that stands`);
    must(endsSomewhere(board, id), `section ${id} borrows in a circle`);
  }
}

function checkBar(bar: Bar, number: number, must: Must): void {
  must(bar.number === number, `bar ${number} is numbered ${bar.number}`);
  must(Number.isInteger(bar.length) && bar.length > 0, `bar ${number} has a length`);
  let end = 0;
  for (const slot of bar.slots) {
    must(slot.start === end, `bar ${number} has a gap or overlap at ${slot.start}`);
    must(Number.isInteger(slot.length) && slot.length > 0, `slot ${slot.id} has a length`);
    end = slot.start + slot.length;
  }
  must(end === bar.length, `bar ${number} is not full`);
}

function checkForm(board: Board, must: Must): void {
  const sections = board.sections.map(({ id }) => id);
  must(unique(board.form.map(({ id }) => id)), "form entries have ids of their own");
  for (const { section, times } of board.form) {
    must(sections.includes(section), `the form plays ${section}, which is not there`);
    const played = Number.isInteger(times) && times >= 1 && times <= 32;
    must(played, `${section} is played ${times} times`);
  }
  must(board.form.length > 0 || sections.length === 0, "a board with sections has a form");
}

function checkSetAside(board: Board, must: Must): void {
  const bars = board.sections.flatMap((section) => section.bars);
  const slots = bars.flatMap((bar) => bar.slots);
  const { setAside } = board;
  const aside = new Set<string>(setAside.slots.map(({ id }) => id));
  must(!bars.some(({ id }) => setAside.bars.includes(id)), "no bar stands and is set aside");
  must(!slots.some(({ id }) => aside.has(id)), "no slot stands and is set aside");
  must(
    setAside.bars.every((bar) => setAside.texts.has(bar)),
    "bars set aside have a text",
  );
}

function checkLane(lane: Lane, board: Board, must: Must): void {
  const { tuning, capo, lastFret } = lane.setup;
  must(tuning.length === 6, `${lane.id} has six strings`);
  must(
    tuning.every((pitch) => pitch + 24 <= 127 && pitch >= 0),
    `${lane.id} can be tuned so`,
  );
  must(capo >= 0 && capo <= lastFret && lastFret <= 24, `${lane.id} has its capo on the neck`);
  const sounding = [...lane.grips.values()].every((grip) =>
    grip.frets.some((fret) => fret !== undefined),
  );
  must(sounding, `${lane.id} has grips that sound`);
  const owned = lane.owner === undefined || board.members.some(({ id }) => id === lane.owner);
  must(owned, `${lane.id} belongs to a member`);
}

function unique(ids: readonly string[]): boolean {
  return new Set(ids).size === ids.length;
}

function endsSomewhere(board: Board, id: string): boolean {
  let next: string | undefined = id;
  for (let steps = 0; steps <= board.sections.length; steps += 1) {
    next = board.sections.find((section) => section.id === next)?.borrows;
    if (next === undefined) return true;
  }
  return false;
}
