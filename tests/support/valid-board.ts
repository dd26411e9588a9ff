/**
 * What every Board must be, by rules of its own that share nothing with the reading of documents.
 */
import { type Bar, type Board, barAims, type Lane } from "@halflap/board/board";
import { dynamics, type Fill } from "@halflap/board/playing";

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
  checkSong(board, must);
  checkTakes(board, must);
  for (const lane of Object.values(board.lanes)) {
    checkLane(lane, board, must);
    checkPlaying(lane, board, must);
    checkWishes(lane, must);
    for (const fill of lane.fills.values()) checkFill(fill, board, must);
  }
  return faults;
}

function checkSettings(board: Board, must: Must): void {
  must(board.tempo >= 20 && board.tempo <= 400, "the tempo can be played");
  must(/^[A-G](#|b){0,2}$/.test(board.key.tonic), "the key has a tonic");
  must([2, 4, 8, 16].includes(board.meter.unit) && board.meter.beats >= 1, "the meter is one");
  must(isWhole(board.countIn, 0, 4), "the count-in is one");
  must(board.ending.length <= 120 && !board.ending.includes("\n"), "the ending is a line");
  const limits = [...board.limits];
  must(
    limits.every(([name, value]) => /^[A-Za-z]\w*$/.test(name) && Number.isFinite(value)),
    "own limits are named numbers",
  );
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
  const rounds = bar.rounds ?? [1];
  must(ascending(rounds) && rounds.length > 0, `bar ${number} has its rounds in order`);
  must(
    rounds.every((round) => isWhole(round, 1, 32)),
    `bar ${number} is played in rounds`,
  );
}

function checkForm(board: Board, must: Must): void {
  const sections = board.sections.map(({ id }) => id);
  must(unique(board.form.map(({ id }) => id)), "form entries have ids of their own");
  const voices = new Set(board.voices.map(({ id }) => id));
  for (const { section, times, singers } of board.form) {
    must(sections.includes(section), `the form plays ${section}, which is not there`);
    const played = Number.isInteger(times) && times >= 1 && times <= 32;
    must(played, `${section} is played ${times} times`);
    must(singers.length <= times, `${section} is sung in rounds that are played`);
    const known = singers.every((id) => id === undefined || voices.has(id));
    must(known, `${section} is sung by voices that are there`);
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
  const lengths = new Map<string, number>(bars.map(({ id, length }) => [id, length]));
  must(
    setAside.waiting.every(({ bar, start }) => start >= (lengths.get(bar) ?? start + 1)),
    "what waits starts beyond the end of a bar that stands",
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

function checkSong(board: Board, must: Must): void {
  for (const list of [board.voices, board.phrases, board.gapOwners, board.proposals]) {
    must(unique(list.map(({ id }) => id)), "what is sung and proposed has ids of its own");
  }
  for (const { id, name, range } of board.voices) {
    must(name.length <= 60, `voice ${id} has a name`);
    const sings = range === undefined || (range.low <= range.high && isPitch(range.low));
    must(sings && isPitch(range?.high ?? 0), `voice ${id} has a range`);
  }
  for (const phrase of board.phrases) {
    must(startsInBar(board, phrase.bar, phrase.start), `phrase ${phrase.id} starts in its bar`);
    must(inTurn(phrase.melody, phrase.length), `phrase ${phrase.id} sings one note at a time`);
    must(
      phrase.melody.every(({ pitch }) => isPitch(pitch)),
      `phrase ${phrase.id} sings pitches`,
    );
  }
  for (const { id, bar, at, owner } of board.gapOwners) {
    must(startsInBar(board, bar, at), `the gap of ${id} is in its bar`);
    must(["upper", "lower", "both", "open"].includes(owner), `gap ${id} has an owner`);
  }
  for (const [bar, aims] of board.aims) {
    const meant = aims.length > 0 && unique(aims) && aims.every((aim) => barAims.includes(aim));
    must(meant, `bar ${bar} is meant to be something`);
  }
  for (const { id, lane, from, bars, edits } of board.proposals) {
    must(lane === "upper" || lane === "lower", `proposal ${id} is for a lane`);
    must(bars.length > 0 && edits.length > 0, `proposal ${id} changes something somewhere`);
    const known = from === undefined || board.members.some((member) => member.id === from);
    must(known, `proposal ${id} comes from a member`);
  }
}

function checkTakes(board: Board, must: Must): void {
  must(unique(board.takes.map(({ id }) => id)), "takes have ids of their own");
  for (const { id, from, name, bars, offsetMs, lengthMs, tempo } of board.takes) {
    const known = from === undefined || board.members.some((member) => member.id === from);
    must(known, `take ${id} comes from a member`);
    must(name.trim() !== "" && bars.length > 0, `take ${id} has a name and bars`);
    must(
      bars.every(({ length }) => isWhole(length, 1, 12_288)),
      `take ${id} has bars of a length`,
    );
    const times = offsetMs >= 0 && offsetMs <= 300_000 && lengthMs >= 1 && lengthMs <= 60_000;
    must(times && tempo >= 5 && tempo <= 800, `take ${id} can be played`);
  }
}

function checkPlaying(lane: Lane, board: Board, must: Must): void {
  const { strums, strumming } = lane;
  const uses = [strumming.sections, strumming.bars, strumming.passes].flatMap((places) => [
    ...places.values(),
  ]);
  if (strumming.lane !== undefined) uses.push(strumming.lane);
  must(
    uses.every((id) => strums.has(id)),
    `${lane.id} strums patterns of its library`,
  );
  for (const { id, step, steps } of strums.values()) {
    const fits = [6, 8, 12, 16, 24, 32, 48, 64, 72, 96, 144, 192].includes(step);
    must(fits && steps.length > 0, `pattern ${id} has steps`);
  }
  must(
    [...lane.dynamics.values()].every((loud) => dynamics.includes(loud)),
    `${lane.id} is played as loud as can be said`,
  );
  must(
    [...lane.chosenFor].every(([slot, chord]) => lane.grips.has(slot) && chord !== ""),
    `${lane.id} knows chords of grips that it has`,
  );
  must(ofChart(lane.restingPasses, board), `${lane.id} rests in passes first as they are played`);
}

function checkWishes({ id, wishes }: Lane, must: Must): void {
  const { lowest = 0, highest = 127, stringsMin, stringsMax, stringSets } = wishes;
  must(isPitch(lowest) && isPitch(highest) && lowest <= highest, `${id} wishes pitches`);
  const strings =
    isWhole(stringsMin, 1, 6) && isWhole(stringsMax, 1, 6) && stringsMin <= stringsMax;
  must(strings, `${id} wishes some strings`);
  const { lowestFret = 0, highestFret = 24, capo = 0 } = wishes;
  const onNeck = isWhole(lowestFret, 0, 24) && isWhole(highestFret, 0, 24) && isWhole(capo, 0, 12);
  must(onNeck && lowestFret <= highestFret, `${id} wishes frets`);
  const sets = stringSets.every((set) => set.length > 0 && ascending(set.map((string) => -string)));
  must(sets && unique(stringSets.map(String)), `${id} wishes sets of strings`);
  must(
    [...wishes.liked, ...wishes.never].every((grip) => grip.frets.length === 6),
    `${id} wishes grips`,
  );
}

function checkFill(fill: Fill, board: Board, must: Must): void {
  must(startsInBar(board, fill.bar, fill.start), `fill ${fill.id} starts in its bar`);
  must(isWhole(fill.length, 1, 12_288), `fill ${fill.id} has a length`);
  for (const string of [1, 2, 3, 4, 5, 6]) {
    const notes = fill.notes.filter((note) => note.string === string);
    must(inTurn(notes, fill.length), `fill ${fill.id} has one note at a time on string ${string}`);
  }
  for (const { string, fret, way, bend } of fill.notes) {
    must(isWhole(string, 1, 6) && isWhole(fret, 0, 24), `fill ${fill.id} is on the neck`);
    const bends = way === "bend" ? isWhole(bend * 2, 1, 8) : bend === 0;
    must(bends, `fill ${fill.id} bends as far as strings go`);
  }
}

/** Entries of the form come in its order, before those that stand nowhere. */
function ofChart(passes: ReadonlySet<string>, board: Board): boolean {
  const places = new Map<string, number>(board.form.map(({ id }, place) => [id, place]));
  return ascending(
    [...passes].map((id) => places.get(id) ?? board.form.length),
    true,
  );
}

/** One after another inside a length. */
function inTurn(
  notes: readonly { readonly start: number; readonly length: number }[],
  length: number,
): boolean {
  let end = 0;
  for (const note of notes) {
    if (!isWhole(note.start, end, length) || !isWhole(note.length, 1, length)) return false;
    end = note.start + note.length;
  }
  return end <= length;
}

/** What hangs on a bar that stands starts within it. */
function startsInBar(board: Board, bar: string, start: number): boolean {
  const found = board.sections.flatMap(({ bars }) => bars).find(({ id }) => id === bar);
  return isWhole(start, 0, (found?.length ?? Number.POSITIVE_INFINITY) - 1);
}

function isPitch(value: number): boolean {
  return isWhole(value, 0, 127);
}

function isWhole(value: number, least: number, most: number): boolean {
  return Number.isInteger(value) && value >= least && value <= most;
}

function ascending(numbers: readonly number[], orEqual = false): boolean {
  return numbers.every((number, i) => {
    const before = numbers[i - 1] ?? Number.NEGATIVE_INFINITY;
    return before < number || (orEqual && before === number);
  });
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
