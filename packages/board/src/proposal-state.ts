/** Proposals once the repair B24 of SPEC.md is made. */
import type { BarId } from "./board.ts";
import { laneIds, type MemberId } from "./board.ts";
import { fieldOf, listOf } from "./decode.ts";
import { barId, isContentId, isStoredId, proposalId, type SlotId, slotId } from "./ids.ts";
import { keptReading } from "./kept-reading.ts";
import { laneEditOf } from "./lane-edit-copy.ts";
import type { Table } from "./lane-store.ts";
import { barsMax, chordTextMax, proposalEditsMax, proposalsMax, reasonMax } from "./limits.ts";
import { oneLine } from "./one-line.ts";
import { laneEditShape } from "./playing-shape.ts";
import type { Proposal } from "./proposal.ts";

const editsShape = listOf(laneEditShape, proposalEditsMax);

/**
 * The proposals, by id; a proposal with an edit that can't be read is none, for half of it may be
 * worse than nothing. Who offers one counts while a member.
 */
export function readProposals(stored: Table, members: readonly { readonly id: MemberId }[]) {
  return [...stored.keys()]
    .filter(isStoredId)
    .sort()
    .flatMap((key): Proposal | readonly [] => {
      const proposal = keptProposal(key, stored.get(key));
      if (proposal === undefined) return [];
      const from = members.find(({ id }) => id === fieldOf(stored.get(key), "from"))?.id;
      return { ...proposal, from };
    })
    .slice(0, proposalsMax);
}

const keptProposal = keptReading((key, value): Omit<Proposal, "from"> | undefined => {
  const lane = laneIds.find((known) => known === fieldOf(value, "lane"));
  const bars = fieldOf(value, "bars");
  const about: readonly BarId[] = Array.isArray(bars)
    ? bars.slice(0, barsMax).filter(isContentId).map(barId)
    : [];
  const edits = editsShape(fieldOf(value, "edits"), "");
  const chords = readChords(fieldOf(value, "chords"));
  if (lane === undefined || about.length === 0 || !edits.ok || edits.value.length === 0) {
    return undefined;
  }
  return {
    id: proposalId(key),
    lane,
    words: oneLine(fieldOf(value, "words"), reasonMax) ?? "",
    bars: about,
    edits: edits.value.map(laneEditOf),
    ...(chords.size === 0 ? {} : { chords }),
  };
});

/** The chords that can be read; a page that is older stored none. */
function readChords(stored: unknown): ReadonlyMap<SlotId, string> {
  if (typeof stored !== "object" || stored === null) return new Map();
  const entries = Object.entries(stored).slice(0, proposalEditsMax);
  return new Map(
    entries.flatMap(([slot, value]): readonly [SlotId, string][] => {
      const text = oneLine(value, chordTextMax);
      return text === undefined || !isContentId(slot) ? [] : [[slotId(slot), text]];
    }),
  );
}
