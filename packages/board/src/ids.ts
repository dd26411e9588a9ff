/**
 * The ids of a board's parts: those made once and stored, and those that reading derives from them.
 */
import { assert } from "@halflap/theory/units";

export type BarId = string & { readonly unit: "BarId" };
export type SlotId = string & { readonly unit: "SlotId" };
export type SectionId = string & { readonly unit: "SectionId" };
export type FormEntryId = string & { readonly unit: "FormEntryId" };
export type SilenceId = string & { readonly unit: "SilenceId" };
export type MemberId = string & { readonly unit: "MemberId" };
export type StrumId = string & { readonly unit: "StrumId" };
export type FillId = string & { readonly unit: "FillId" };
export type VoiceId = string & { readonly unit: "VoiceId" };
export type PhraseId = string & { readonly unit: "PhraseId" };
export type GapOwnerId = string & { readonly unit: "GapOwnerId" };
export type ProposalId = string & { readonly unit: "ProposalId" };
export type TakeId = string & { readonly unit: "TakeId" };

/** The two lanes, from the top of the page down. */
export const laneIds = ["upper", "lower"] as const;
export type LaneId = (typeof laneIds)[number];

const stored = /^[A-Za-z0-9_-]{1,64}$/;
const content = /^(?:[A-Za-z0-9_-]{1,64}~)?~?[A-Za-z0-9_-]{1,64}$/;

/**
 * Whether an untrusted value is an id that a document may hold: 1..64 letters, digits, `_`, `-`.
 */
export function isStoredId(value: unknown): value is string {
  return typeof value === "string" && stored.test(value);
}

/** Whether an untrusted value can be the id of a bar or slot, stored or derived. */
export function isContentId(value: unknown): value is string {
  return typeof value === "string" && content.test(value);
}

/** The section of a stored id. */
export function sectionId(text: string): SectionId {
  assert(isStoredId(text), `not a section id: ${text}`);
  return text as SectionId;
}

/** The bar of a stored or derived id. */
export function barId(text: string): BarId {
  assert(isContentId(text), `not a bar id: ${text}`);
  return text as BarId;
}

/** The slot of a stored or derived id. */
export function slotId(text: string): SlotId {
  assert(isContentId(text), `not a slot id: ${text}`);
  return text as SlotId;
}

/** A form entry's id; `~verse` where the entry is derived because no form was written. */
export function formEntryId(text: string): FormEntryId {
  assert(isContentId(text), `not a form entry id: ${text}`);
  return text as FormEntryId;
}

/** The silence of a stored id. */
export function silenceId(text: string): SilenceId {
  assert(isStoredId(text), `not a silence id: ${text}`);
  return text as SilenceId;
}

/** A strum pattern's id, made once and stored. */
export function strumId(text: string): StrumId {
  assert(isStoredId(text), `not a strum pattern id: ${text}`);
  return text as StrumId;
}

/** A fill's id, made once and stored. */
export function fillId(text: string): FillId {
  assert(isStoredId(text), `not a fill id: ${text}`);
  return text as FillId;
}

/** A voice's id, made once and stored. */
export function voiceId(text: string): VoiceId {
  assert(isStoredId(text), `not a voice id: ${text}`);
  return text as VoiceId;
}

/** A sung phrase's id, made once and stored. */
export function phraseId(text: string): PhraseId {
  assert(isStoredId(text), `not a phrase id: ${text}`);
  return text as PhraseId;
}

/** The id of a word on whose gap it is, made once and stored. */
export function gapOwnerId(text: string): GapOwnerId {
  assert(isStoredId(text), `not a gap owner id: ${text}`);
  return text as GapOwnerId;
}

/** A proposal's id, made once and stored. */
export function proposalId(text: string): ProposalId {
  assert(isStoredId(text), `not a proposal id: ${text}`);
  return text as ProposalId;
}

/** A take's id, made by the server. */
export function takeId(text: string): TakeId {
  assert(isStoredId(text), `not a take id: ${text}`);
  return text as TakeId;
}

/** `solo~b1`: bar b1 as it stands in the section that borrows it, with lane content of its own. */
export function borrowedBar(section: SectionId, bar: BarId): BarId {
  return barId(`${section}~${bar}`);
}

/** `solo~s1`: slot s1 as it stands in the section that borrows it. */
export function borrowedSlot(section: SectionId, slot: SlotId): SlotId {
  return slotId(`${section}~${slot}`);
}

/** `~verse`: the one time that a section is played while no form was written. */
export function derivedEntry(section: SectionId): FormEntryId {
  return formEntryId(`~${section}`);
}

/**
 * `verse-2`: the second time that a first form plays a section, whoever writes it; undefined where
 * that is too long for an id.
 */
export function firstFormEntry(section: SectionId, time: number): FormEntryId | undefined {
  const id = `${section}-${time}`;
  return isStoredId(id) ? formEntryId(id) : undefined;
}

/** `~b1`: the slot in which the chord before goes on, at the start of bar b1. */
export function heldSlot(bar: BarId): SlotId {
  return slotId(`~${bar}`);
}

/** Whether a slot is one in which the chord before goes on, so that no document stores it. */
export function isHeld(slot: SlotId): boolean {
  return ownSlot(slot).startsWith("~");
}

/** The bar itself, where the id may be a borrowing section's. */
export function ownBar(bar: BarId): BarId {
  return barId(withoutSection(bar));
}

/** The slot itself, where the id may be a borrowing section's. */
export function ownSlot(slot: SlotId): SlotId {
  return slotId(withoutSection(slot));
}

function withoutSection(id: string): string {
  const end = id.indexOf("~");
  return end > 0 ? id.slice(end + 1) : id;
}
