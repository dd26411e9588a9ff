/** Who else is on the board now, and where: awareness states, read with suspicion. */
import { type LaneId, laneIds, type MemberId, type SlotId } from "@halflap/board/board";
import { isContentId, isStoredId, slotId } from "@halflap/board/ids";
import { memberId } from "@halflap/board/talk";
import type { Presence } from "@halflap/wire/presence";
import { type Accessor, createEffect, createSignal, onCleanup } from "solid-js";
import type { Awareness } from "y-protocols/awareness";

export type Where = { readonly lane: LaneId; readonly slot: SlotId };

/** Everybody else's presence, one a member; follows the awareness, also when it is another one. */
export function createPresence(
  awareness: Accessor<Awareness>,
  me: () => { readonly id: MemberId },
): Accessor<readonly Presence[]> {
  const [states, setStates] = createSignal<readonly Presence[]>([], { equals: sameText });
  createEffect(() => {
    const current = awareness();
    const read = () => setStates([...current.getStates().values()].flatMap(presenceOf));
    read();
    current.on("change", read);
    onCleanup(() => current.off("change", read));
  });
  return () => {
    const byMember = new Map<MemberId, Presence>();
    for (const state of states()) {
      // In several tabs they are where they came last, and along where any of them is.
      if (state.member !== me().id) {
        byMember.set(state.member, { ...byMember.get(state.member), ...state });
      }
    }
    return [...byMember.values()];
  };
}

/** Tells the others who this is and where. */
export function tellWhere(
  awareness: Awareness,
  me: { readonly id: MemberId; readonly name: string },
  where: Where | undefined,
  withinMs?: number,
): void {
  const at = where === undefined ? {} : { lane: where.lane, slot: where.slot };
  const along = withinMs === undefined ? {} : { withinMs };
  const presence: Presence = { member: me.id, name: me.name, ...at, ...along };
  awareness.setLocalState(presence);
}

/**
 * Forgets how far the others' clocks were, once a line is lost. The protocol takes a state only
 * under a newer clock, and whoever only stayed where they were comes back under the same one.
 */
export function forgetOthers(awareness: Awareness): void {
  for (const client of [...awareness.meta.keys()]) {
    if (client === awareness.clientID) continue;
    awareness.states.delete(client);
    awareness.meta.delete(client);
  }
}

/** Says the same as before under a newer clock: the others were told that this page had gone. */
export function sayAgain(awareness: Awareness): void {
  const state = awareness.getLocalState();
  if (state !== null) awareness.setLocalState(state);
}

function presenceOf(state: Readonly<Record<string, unknown>>): readonly Presence[] {
  const { member, name, slot, withinMs } = state;
  const lane = laneIds.find((id) => id === state.lane);
  if (!isStoredId(member) || typeof name !== "string") return [];
  const at = lane !== undefined && isContentId(slot) ? { lane, slot: slotId(slot) } : {};
  const isAlong = typeof withinMs === "number" && withinMs >= 0;
  return [{ member: memberId(member), name, ...at, ...(isAlong ? { withinMs } : {}) }];
}

function sameText(a: unknown, b: unknown): boolean {
  return JSON.stringify(a) === JSON.stringify(b);
}
