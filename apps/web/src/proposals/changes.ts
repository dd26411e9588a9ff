/** Changes to a lane as one looks at them before they are made: what is there now, what then. */
import type { Board, FormEntryId, Lane, LaneId } from "@halflap/board/board";
import type { Fill, Strum } from "@halflap/board/playing";
import type { LaneEdit, StrumPlace } from "@halflap/board/proposal";
import { decodeGrip, type Grip, sameGrip } from "@halflap/theory/grip";
import { type Hands, setAt, strumInForce } from "../playing/in-force.ts";
import { changeWords } from "../words/changes.ts";
import { type ChartPlaces, placesOn } from "./chart-places.ts";
import { handsAfter } from "./hands-after.ts";

type Pair<T> = { readonly before: T | undefined; readonly after: T | undefined };

export type Change =
  | ({ readonly kind: "grip"; readonly where: string } & Pair<Grip>)
  | ({ readonly kind: "strum"; readonly where: string } & Pair<Strum>)
  | ({ readonly kind: "fill"; readonly where: string } & Pair<Fill>)
  | { readonly kind: "said"; readonly words: string; readonly isNews: boolean }
  /** What it would change is not on the board any more. */
  | { readonly kind: "gone" };

/** One change an edit, but for new patterns that are made only to be set somewhere. */
export function changesOf(
  board: Board,
  laneId: LaneId,
  edits: readonly LaneEdit[],
): readonly Change[] {
  const chart = placesOn(board)();
  const lane = board.lanes[laneId];
  const then = handsAfter(lane, edits);
  const set = new Set(edits.flatMap((edit) => (edit.kind === "strum-at" ? [edit.strum] : [])));
  return edits.flatMap((edit): readonly Change[] => {
    // A pattern that the lane has already may be played elsewhere too: its change is shown as well.
    const isNew = edit.kind === "strum" && !lane.strums.has(edit.strum.id);
    if (isNew && set.has(edit.strum.id)) return [];
    return [changeOf({ chart, lane, then, board }, edit)];
  });
}

/** Whether a change would leave the lane as it is. */
export function isIdle(change: Change): boolean {
  switch (change.kind) {
    case "grip":
      return same(change, sameGrip);
    case "strum":
      return same(change, soundsAlike);
    case "fill":
      return same(change, (a, b) => JSON.stringify(a) === JSON.stringify(b));
    case "said":
      return !change.isNews;
    case "gone":
      return false;
  }
}

/** Whether two lists of edits are the same changes, however their fields are ordered. */
export function sameEdits(a: readonly LaneEdit[], b: readonly LaneEdit[]): boolean {
  return isSame(a, b);
}

type Scene = {
  readonly chart: ChartPlaces;
  readonly lane: Lane;
  /** What the lane strums once all edits are made. */
  readonly then: Hands;
  readonly board: Board;
};

function changeOf(scene: Scene, edit: LaneEdit): Change {
  const { chart, lane } = scene;
  const gone: Change = { kind: "gone" };
  switch (edit.kind) {
    case "grip": {
      const found = chart.slots.get(edit.slot);
      if (found === undefined) return gone;
      return {
        kind: "grip",
        where: changeWords.gripIn(found.slot.text, found.bar.number),
        before: lane.grips.get(edit.slot),
        after: edit.grip === undefined ? undefined : decodeGrip(edit.grip),
      };
    }
    case "strum":
    case "strum-gone":
    case "strum-at":
      return strumChange(scene, edit) ?? gone;
    case "fill":
    case "fill-gone": {
      const id = edit.kind === "fill" ? edit.fill.id : edit.fill;
      const before = lane.fills.get(id);
      const after = edit.kind === "fill" ? edit.fill : undefined;
      const place = (after ?? before)?.bar;
      const found = place && chart.bars.get(place);
      if (found === undefined) return gone;
      return { kind: "fill", where: changeWords.inBar(found.bar.number), before, after };
    }
    case "rest-pass": {
      const section = sectionOf(scene, edit.entry);
      if (section === undefined) return gone;
      const words = edit.rest ? changeWords.restPass(section) : changeWords.playPass(section);
      return said(words, lane.restingPasses.has(edit.entry) !== edit.rest);
    }
    case "capo":
      return said(changeWords.capo(edit.capo), lane.setup.capo !== edit.capo);
    case "lock": {
      const found = chart.slots.get(edit.slot);
      if (found === undefined) return gone;
      const words = changeWords.lock(found.slot.text, found.bar.number, edit.on);
      return said(words, lane.wishes.locked.has(edit.slot) !== edit.on);
    }
    default:
      return barChange(scene, edit) ?? gone;
  }
}

type StrumEdit = Extract<LaneEdit, { kind: "strum" | "strum-gone" | "strum-at" }>;
type BarEdit = Extract<
  LaneEdit,
  { kind: "lay-out" | "dynamic" | "palm-mute" | "let-ring" | "mark" }
>;

function strumChange(scene: Scene, edit: StrumEdit): Change | undefined {
  const { lane, then } = scene;
  if (edit.kind !== "strum-at") {
    const before = lane.strums.get(edit.kind === "strum" ? edit.strum.id : edit.strum);
    const after = edit.kind === "strum" ? edit.strum : undefined;
    if (before === undefined && after === undefined) return undefined;
    const where = changeWords.pattern((after ?? before)?.name ?? "");
    return { kind: "strum", where, before, after };
  }
  const where = placeWords(scene, edit.place);
  if (where === undefined) return undefined;
  if (edit.strum !== undefined && !then.strums.has(edit.strum)) return undefined;
  const before = strummedAt(scene, edit.place, lane);
  return { kind: "strum", where, before, after: strummedAt(scene, edit.place, then) };
}

/** What is strummed at a place, be it set there or further out. */
function strummedAt(scene: Scene, place: StrumPlace, hands: Hands): Strum | undefined {
  const { chart, board, then } = scene;
  const set = setAt(hands, place);
  const own = set && hands.strums.get(set);
  if (own !== undefined || place.kind === "lane") return own;
  if (place.kind === "bar") {
    const found = chart.bars.get(place.bar);
    return found && strumInForce(hands, found.section.id, found.bar.id)?.strum;
  }
  const inside =
    place.kind === "section"
      ? place.section
      : board.form.find(({ id }) => id === place.entry)?.section;
  const section = board.sections.find(({ id }) => id === inside);
  // A bar that keeps a pattern of its own says nothing of its section.
  const bar = section?.bars.find(({ id }) => !then.strumming.bars.has(id));
  return section && bar && strumInForce(hands, section.id, bar.id)?.strum;
}

function placeWords(scene: Scene, place: StrumPlace): string | undefined {
  switch (place.kind) {
    case "lane":
      return changeWords.wholeLane;
    case "section":
      return scene.board.sections.find(({ id }) => id === place.section)?.name;
    case "bar": {
      const found = scene.chart.bars.get(place.bar);
      return found && changeWords.inBar(found.bar.number);
    }
    case "pass": {
      const section = sectionOf(scene, place.entry);
      return section === undefined ? undefined : changeWords.pass(section);
    }
  }
}

function barChange({ chart, lane }: Scene, edit: BarEdit): Change | undefined {
  const number = chart.bars.get(edit.bar)?.bar.number;
  if (number === undefined) return undefined;
  switch (edit.kind) {
    case "lay-out": {
      const words = edit.rest ? changeWords.layOut(number) : changeWords.playAgain(number);
      return said(words, lane.layOuts.has(edit.bar) !== edit.rest);
    }
    case "dynamic": {
      const isNews = lane.dynamics.get(edit.bar) !== edit.dynamic;
      return said(changeWords.dynamic(number, edit.dynamic), isNews);
    }
    case "palm-mute": {
      const isNews = lane.palmMutes.has(edit.bar) !== edit.on;
      return said(changeWords.palmMute(number, edit.on), isNews);
    }
    case "let-ring": {
      const isNews = lane.letRings.has(edit.bar) !== edit.on;
      return said(changeWords.letRing(number, edit.on), isNews);
    }
    case "mark": {
      const isNews = (lane.marks.get(edit.bar) ?? "") !== edit.text;
      return said(changeWords.mark(number, edit.text), isNews);
    }
  }
}

function said(words: string, isNews: boolean): Change {
  return { kind: "said", words, isNews };
}

function sectionOf({ board }: Scene, entry: FormEntryId): string | undefined {
  const section = board.form.find(({ id }) => id === entry)?.section;
  return board.sections.find(({ id }) => id === section)?.name;
}

function same<T>({ before, after }: Pair<T>, alike: (a: T, b: T) => boolean): boolean {
  if (before === undefined || after === undefined) return before === after;
  return alike(before, after);
}

/** Whether two patterns sound alike, whatever they are called. */
function soundsAlike(a: Strum, b: Strum): boolean {
  const { id, name } = a;
  return isSame(a, { ...b, id, name });
}

/** Deep equality of plain values; a field that is undefined is as good as missing. */
function isSame(a: unknown, b: unknown): boolean {
  if (typeof a !== "object" || typeof b !== "object" || a === null || b === null) return a === b;
  const one = new Map(Object.entries(a));
  const other = new Map(Object.entries(b));
  return [...one.keys(), ...other.keys()].every((key) => isSame(one.get(key), other.get(key)));
}
