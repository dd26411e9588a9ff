/** Strum patterns for one lane that lock with what the other plays. */
import type { Board, LaneId, SectionId } from "@halflap/board/board";
import { beatOf } from "@halflap/board/meter";
import type { Strum } from "@halflap/board/playing";
import { printSteps } from "@halflap/board/strum-text";
import { limitsOf } from "@halflap/checker/thresholds";
import { type Frame, preparedBoard } from "@halflap/checker/tune";
import { overlapOf } from "@halflap/theory/rhythm";
import { costOf, type Wanted, wantedIn } from "./interlock/cost.ts";
import { type Ground, groundOf } from "./interlock/ground.ts";
import { type Measures, measuresOf, rhythmIn } from "./interlock/measures.ts";
import { type GridRhythm, placesOf, rhythmsFor } from "./interlock/rhythms.ts";
import { armCycle, type Dress, dressFor, strokesOf } from "./interlock/strokes.ts";
import { aroundSection, otherLane } from "./interlock/trial.ts";
import { makeVerdict } from "./interlock/verdict.ts";
import { nameOf, wordsOf } from "./interlock/words.ts";

/** A pattern to choose from, with what was measured of it against the other lane. */
export type StrumIdea = {
  readonly strum: Omit<Strum, "id">;
  /** Share of the strokes of either that both strike at once (Jaccard), 0..1: less locks better. */
  readonly shared: number;
  /** Share of the section's eighths that one of both strikes, 0..1. */
  readonly covered: number;
  /** Its syncopation, Longuet-Higgins & Lee 1984 as counted in theory/syncopation. */
  readonly syncopation: number;
  /** Strokes a beat. */
  readonly density: number;
  /** "Off-beats between Ada's quarters: nothing together, every eighth filled." */
  readonly words: string;
};

/** How many are offered at most. */
const ideasMax = 8;

/** Two ideas with more of their strokes in common are nearly the same to the ear. */
const alikeMax = 0.6;

/** So many are shown to the checker at most, the best first. */
const checkedMax = 80;

/**
 * Patterns for a lane in a section, the best first, at most eight that differ in their strokes.
 * Each would be set for the section: bars and passes with a pattern of their own keep it, and are
 * not measured. All lock as R19 has it, unless the other lane leaves no room for that. Empty where
 * no bar is left, or nothing without fault.
 */
export function strumIdeas(board: Board, lane: LaneId, section: SectionId): readonly StrumIdea[] {
  const place = { lane, section };
  const local = aroundSection(board, section);
  const ground = groundOf(local, place);
  if (ground === undefined) return [];
  const isFaultless = makeVerdict(local, place, ground);
  const { players } = preparedBoard(local).frame;
  const drafts = ranked(local, ground);
  const { interlock, interlockCovered, interlockCover } = limitsOf(board);
  const isLocking = ({ measures: { shared, doubled, covered } }: Draft) =>
    shared <= interlock && doubled <= interlockCovered && covered >= interlockCover;
  const locking = chosenOf(drafts.filter(isLocking), isFaultless, ground);
  const chosen = locking.length > 0 ? locking : chosenOf(drafts, isFaultless, ground);
  return chosen.map((draft) => ideaOf(draft, ground, players, lane));
}

/** The first that are without fault and truly different. */
function chosenOf(
  drafts: readonly Draft[],
  isFaultless: (strum: Draft["strum"]) => boolean,
  ground: Ground,
): readonly Draft[] {
  const chosen: Draft[] = [];
  let checked = 0;
  for (const draft of drafts) {
    if (chosen.length === ideasMax || checked === checkedMax) break;
    if (chosen.some((other) => isAlike(draft, other, ground))) continue;
    checked += 1;
    if (isFaultless(draft.strum)) chosen.push(draft);
  }
  return chosen;
}

/** A pattern with what is measured of it. */
type Draft = {
  readonly strum: Omit<Strum, "id">;
  readonly rhythm: GridRhythm;
  readonly dress: Dress;
  readonly measures: Measures;
  readonly cost: number;
};

/** All patterns that an arm can play here and that change something, the best first. */
function ranked(board: Board, ground: Ground): readonly Draft[] {
  const wanted = wantedIn(ground);
  const now = ground.present === undefined ? [] : rhythmIn(ground.present, ground).onsets;
  return rhythmsFor(ground)
    .filter((rhythm) => placesOf(rhythm).join() !== now.join())
    .map((rhythm) => draftOf(rhythm, ground, wanted))
    .filter((draft) => isPlayable(draft, board, ground))
    .sort((a, b) => a.cost - b.cost || compareText(signs(a), signs(b)));
}

function draftOf(rhythm: GridRhythm, ground: Ground, wanted: Wanted): Draft {
  const { present, feel } = ground;
  const dress = dressFor(rhythm, present);
  const pattern = strokesOf(rhythm, dress);
  const measures = measuresOf(pattern, ground);
  const strum = { name: "", ...pattern, feel, palmMute: present?.palmMute ?? false };
  return { strum, rhythm, dress, measures, cost: costOf(rhythm, measures, wanted) };
}

/** Whether the arm keeps it up at this tempo, and the hand while its player sings. R22, R28. */
function isPlayable({ strum, rhythm, measures }: Draft, board: Board, ground: Ground): boolean {
  const limits = limitsOf(board);
  const msPerTick = 60_000 / board.tempo / beatOf(board.meter);
  const cycleMs = armCycle(strum.steps) * strum.step * msPerTick;
  // Single strokes on a grid too fine to count are as hard to place as all of them.
  const isCountable = rhythm.grid.step * msPerTick >= limits.shortStep;
  const sings = ground.bars.some(({ sung }) => sung.length > 0);
  const isFree = !sings || measures.sungDensity < limits.singLook;
  return isCountable && 1000 / cycleMs <= limits.armLook && isFree;
}

function isAlike(one: Draft, other: Draft, ground: Ground): boolean {
  const rhythms = [rhythmIn(one.strum, ground), rhythmIn(other.strum, ground)] as const;
  return (overlapOf(...rhythms) ?? 1) > alikeMax;
}

function ideaOf(draft: Draft, ground: Ground, players: Frame["players"], lane: LaneId): StrumIdea {
  const { strum, rhythm, dress, measures } = draft;
  const { shared, covered, syncopation, density } = measures;
  const said = { places: placesOf(rhythm), dress, measures };
  return {
    strum: { ...strum, name: nameOf(said, ground) },
    ...{ shared, covered, syncopation, density },
    words: wordsOf(said, ground, players[otherLane(lane)]),
  };
}

function signs({ strum }: Draft): string {
  return `${String(strum.step).padStart(3, "0")} ${printSteps(strum.steps)}`;
}

function compareText(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
