/** A change offered to the other player's lane; its owner takes it or leaves it. */
import type { Fret } from "@halflap/theory/units";
import type {
  BarId,
  FillId,
  FormEntryId,
  LaneId,
  MemberId,
  ProposalId,
  SectionId,
  SlotId,
  StrumId,
} from "./ids.ts";
import type { Dynamic, Fill, Strum } from "./playing.ts";

/** Where a strum pattern is set. */
export type StrumPlace =
  | { readonly kind: "lane" }
  | { readonly kind: "section"; readonly section: SectionId }
  | { readonly kind: "bar"; readonly bar: BarId }
  | { readonly kind: "pass"; readonly entry: FormEntryId };

/**
 * One change to a lane, as plain data: made on the documents, tried on a Board by the checker, or
 * offered to the other player. `undefined` takes away.
 */
export type LaneEdit =
  /** `grip` is written "x-x-3-2-4-x". */
  | { readonly kind: "grip"; readonly slot: SlotId; readonly grip: string | undefined }
  | { readonly kind: "lay-out"; readonly bar: BarId; readonly rest: boolean }
  | { readonly kind: "strum"; readonly strum: Strum }
  | { readonly kind: "strum-gone"; readonly strum: StrumId }
  | {
      readonly kind: "strum-at";
      readonly place: StrumPlace;
      readonly strum: StrumId | undefined;
    }
  | { readonly kind: "fill"; readonly fill: Fill }
  | { readonly kind: "fill-gone"; readonly fill: FillId }
  | { readonly kind: "dynamic"; readonly bar: BarId; readonly dynamic: Dynamic | undefined }
  | { readonly kind: "palm-mute"; readonly bar: BarId; readonly on: boolean }
  | { readonly kind: "let-ring"; readonly bar: BarId; readonly on: boolean }
  | { readonly kind: "rest-pass"; readonly entry: FormEntryId; readonly rest: boolean }
  | { readonly kind: "mark"; readonly bar: BarId; readonly text: string }
  /** Where the capo lies, so that a part may come with it; 0 = none. Grips keep their frets. */
  | { readonly kind: "capo"; readonly capo: Fret }
  /** Whether the grip of a slot stays when the part is fitted. */
  | { readonly kind: "lock"; readonly slot: SlotId; readonly on: boolean };

export type Proposal = {
  readonly id: ProposalId;
  /** The lane that would change. */
  readonly lane: LaneId;
  /** Who offers it. */
  readonly from: MemberId | undefined;
  /** What it does and why, in a sentence. */
  readonly words: string;
  /** The bars it is about, for the eye; never empty. */
  readonly bars: readonly BarId[];
  readonly edits: readonly LaneEdit[];
  /** The chord that each grip was offered for, where that was stored with it. */
  readonly chords?: ReadonlyMap<SlotId, string>;
};
