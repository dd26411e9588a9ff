/** Grips that are looked at on the board before anybody takes them. */
import type { LaneId, SlotId } from "@halflap/board/board";
import type { Grip } from "@halflap/theory/grip";
import type { Setup } from "@halflap/theory/tuning";
import { createSignal } from "solid-js";
import { createKeyed } from "./keyed.ts";

/** What would change in a lane: only slots that would hold another grip. */
export type TriedLane = {
  readonly grips: ReadonlyMap<SlotId, Grip>;
  /** The guitar on which they are held. */
  readonly setup: Setup;
};

/** Would-be grips of one lane or both. */
export type Preview = Readonly<Partial<Record<LaneId, TriedLane>>>;

const nothing: ReadonlyMap<SlotId, Grip> = new Map();

/** Nothing is tried at first; whoever reads a slot is told of changes to that slot alone. */
export function createPreview() {
  const [preview, setPreview] = createSignal<Preview>();
  const upper = createKeyed(() => preview()?.upper?.grips ?? nothing);
  const lower = createKeyed(() => preview()?.lower?.grips ?? nothing);
  return {
    preview,
    setPreview,
    /** The would-be grip of a slot; undefined where nothing would change. */
    triedAt: (lane: LaneId, slot: SlotId) => (lane === "upper" ? upper(slot) : lower(slot)),
    /** The guitar of the would-be grips. */
    triedSetup: (lane: LaneId) => preview()?.[lane]?.setup,
  };
}
