/** What a lane strums, and where, once changes to it are made. */
import type { StrumId } from "@halflap/board/ids";
import type { LaneEdit } from "@halflap/board/proposal";
import type { Hands } from "../playing/in-force.ts";

/** The patterns and where they are set after the changes, made in their order. */
export function handsAfter(lane: Hands, edits: readonly LaneEdit[]): Hands {
  const strums = new Map(lane.strums);
  const sections = new Map(lane.strumming.sections);
  const bars = new Map(lane.strumming.bars);
  const passes = new Map(lane.strumming.passes);
  let whole = lane.strumming.lane;
  for (const edit of edits) {
    if (edit.kind === "strum") strums.set(edit.strum.id, edit.strum);
    if (edit.kind === "strum-gone") strums.delete(edit.strum);
    if (edit.kind !== "strum-at") continue;
    const { place, strum } = edit;
    switch (place.kind) {
      case "lane":
        whole = strum;
        break;
      case "section":
        put(sections, place.section, strum);
        break;
      case "bar":
        put(bars, place.bar, strum);
        break;
      case "pass":
        put(passes, place.entry, strum);
        break;
    }
  }
  return { strums, strumming: { lane: whole, sections, bars, passes } };
}

function put<Id>(places: Map<Id, StrumId>, at: Id, strum: StrumId | undefined): void {
  if (strum === undefined) places.delete(at);
  else places.set(at, strum);
}
