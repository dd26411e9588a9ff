/** What every Board must be, checked by rules of its own: nothing here is shared with the reading of documents. */
import type { Board } from "@halflap/board/board";

/** A sentence for each thing that is wrong with a board; none when it is valid. */
export function faultsOf(board: Board): readonly string[] {
  const faults: string[] = [];
  const must = (holds: boolean, words: string) => {
    if (!holds) faults.push(words);
  };
  const bars = board.sections.flatMap((section) => section.bars);
  const slots = bars.flatMap((bar) => bar.slots);
  const sections = board.sections.map(({ id }) => id);
  must(unique(sections), "sections have ids of their own");
  must(unique(bars.map(({ id }) => id)), "bars have ids of their own");
  must(unique(slots.map(({ id }) => id)), "slots have ids of their own");
  must(bars.length <= 512 && sections.length <= 64, "a board is bounded");
  bars.forEach((bar, i) => {
    must(bar.number === i + 1, `bar ${i + 1} is numbered ${bar.number}`);
    must(Number.isInteger(bar.length) && bar.length > 0, `bar ${bar.number} has a length`);
    let end = 0;
    for (const slot of bar.slots) {
      must(slot.start === end, `bar ${bar.number} has a gap or overlap at ${slot.start}`);
      must(Number.isInteger(slot.length) && slot.length > 0, `slot ${slot.id} has a length`);
      end = slot.start + slot.length;
    }
    must(end === bar.length, `bar ${bar.number} is not full`);
  });
  for (const { id, borrows } of board.sections) {
    const direct = borrows === undefined || (sections.includes(borrows) && borrows !== id);
    must(direct, `section ${id} borrows from another one that stands`);
    must(endsSomewhere(board, id), `section ${id} borrows in a circle`);
  }
  must(unique(board.form.map(({ id }) => id)), "form entries have ids of their own");
  for (const { section, times } of board.form) {
    must(sections.includes(section), `the form plays ${section}, which is not there`);
    must(
      Number.isInteger(times) && times >= 1 && times <= 32,
      `${section} is played ${times} times`,
    );
  }
  must(board.form.length > 0 || sections.length === 0, "a board with sections has a form");
  must(board.tempo >= 20 && board.tempo <= 400, "the tempo can be played");
  must(/^[A-G](#|b){0,2}$/.test(board.key.tonic), "the key has a tonic");
  must([2, 4, 8, 16].includes(board.meter.unit) && board.meter.beats >= 1, "the meter is one");
  const aside = new Set<string>([
    ...board.setAside.bars,
    ...board.setAside.slots.map(({ id }) => id),
  ]);
  must(!bars.some(({ id }) => aside.has(id)), "no bar stands and is set aside");
  must(!slots.some(({ id }) => aside.has(id)), "no slot stands and is set aside");
  must(board.setAside.texts.size === board.setAside.bars.length, "bars set aside have a text");
  for (const lane of Object.values(board.lanes)) {
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
  return faults;
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
