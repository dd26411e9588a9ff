/** Strum patterns for one lane that lock with what the other plays. */
import type { Board, LaneId, SectionId } from "@halflap/board/board";
import type { Strum } from "@halflap/board/playing";

/** A pattern to choose from, with what was measured of it against the other lane. */
export type StrumIdea = {
  readonly strum: Omit<Strum, "id">;
  /** Share of the strokes of either that both strike at once (Jaccard), 0..1: less locks better. */
  readonly shared: number;
  /** Share of the section's eighths that one of both strikes, 0..1. */
  readonly covered: number;
  /** The syncopation of the pattern, Longuet-Higgins & Lee 1984 as counted in theory/syncopation. */
  readonly syncopation: number;
  /** Strokes a beat. */
  readonly density: number;
  /** "Off-beats between Ada's quarters: nothing together, every eighth filled." */
  readonly words: string;
};

/** Patterns for a lane in a section, the best first, at most eight that differ in their strokes. */
export declare function strumIdeas(
  board: Board,
  lane: LaneId,
  section: SectionId,
): readonly StrumIdea[];
