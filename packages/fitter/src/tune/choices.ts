/** What each lane may choose from: the grips in the slots where it may change. */
import type { LaneId, SlotId } from "@halflap/board/board";
import type { Grip } from "@halflap/theory/grip";

/** By slot, never empty; where nothing stands the lane stays as it is. */
export type LaneChoices = ReadonlyMap<SlotId, readonly Grip[]>;
export type Choices = Readonly<Record<LaneId, LaneChoices>>;

/** A grip of a lane in a slot; undefined = it holds none. */
export type GripIn = (lane: LaneId, slot: SlotId) => Grip | undefined;
