/** Who sings, where and when, and what bars are meant to be: each command is one transaction. */
import { assert } from "@halflap/theory/units";
import type * as Y from "yjs";
import { type BarAim, type BarId, barAims, type FormEntryId } from "../board.ts";
import { otherName } from "../first-passes.ts";
import { isContentId, isStoredId, ownBar, type VoiceId } from "../ids.ts";
import type { Table } from "../lane-store.ts";
import { chartLayout } from "../layout.ts";
import { timesMax } from "../limits.ts";
import { knownFields, setKeeping } from "../newer-fields.ts";
import type { GapOwner, Phrase, Voice } from "../singing.ts";
import { gapOwnerCopy, phraseCopy, songShapes, voiceCopy } from "../song-shape.ts";
import { editChart } from "./stored.ts";

/** Somebody new who sings. */
export function addVoice(doc: Y.Doc, voice: Voice): void {
  put(doc, "voices", voice.id, voiceCopy(voice));
}

/** Says something else of somebody who sings; a voice that is not there stays away. */
export function changeVoice(doc: Y.Doc, voice: Voice): void {
  if (chartLayout(doc).voices.has(voice.id)) put(doc, "voices", voice.id, voiceCopy(voice));
}

/** Takes a voice away; what it sang is sung by nobody. */
export function removeVoice(doc: Y.Doc, voice: VoiceId): void {
  editChart(doc, ({ voices }) => voices.delete(voice));
}

/** Writes down a stretch that is sung, or changes it. */
export function putPhrase(doc: Y.Doc, phrase: Phrase): void {
  put(doc, "phrases", phrase.id, phraseCopy(phrase));
}

/** Takes a phrase away. */
export function removePhrase(doc: Y.Doc, phrase: Phrase["id"]): void {
  editChart(doc, ({ phrases }) => phrases.delete(phrase));
}

/** Says whose fill it is in a gap. */
export function setGapOwner(doc: Y.Doc, owner: GapOwner): void {
  put(doc, "gapOwners", owner.id, gapOwnerCopy(owner));
}

/** Says no more whose fill it is in a gap. */
export function clearGapOwner(doc: Y.Doc, owner: GapOwner["id"]): void {
  editChart(doc, ({ gapOwners }) => gapOwners.delete(owner));
}

/** Says who sings each round of a form entry, first round first; without anybody nobody does. */
export function setSingers(
  doc: Y.Doc,
  change: {
    readonly entry: FormEntryId;
    readonly singers: readonly (VoiceId | undefined)[];
  },
): void {
  const rounds = change.singers.map((voice) => voice ?? null);
  const value = rounds.every((voice) => voice === null) ? undefined : rounds;
  const other = otherName(change.entry);
  editChart(doc, ({ singers }) => {
    // What was said of the entry under its other name counts no more.
    if (other !== undefined) singers.delete(other);
    put(doc, "singers", change.entry, value);
  });
}

/**
 * Says in which rounds a bar is played, counted from 1; undefined or none = in all. A bar that is
 * borrowed has the rounds of its own bar.
 */
export function setRounds(
  doc: Y.Doc,
  change: { readonly bar: BarId; readonly rounds: readonly number[] | undefined },
): void {
  const rounds = [...new Set(change.rounds)].sort((a, b) => a - b);
  assert(rounds.length <= timesMax, "rounds of a form entry");
  put(doc, "barRounds", ownBar(change.bar), rounds.length === 0 ? undefined : rounds);
}

/** Says what a bar is meant to be; without aims nothing special. */
export function setAims(
  doc: Y.Doc,
  change: { readonly bar: BarId; readonly aims: readonly BarAim[] },
): void {
  const aims = barAims.filter((aim) => change.aims.includes(aim));
  put(doc, "aims", change.bar, aims.length === 0 ? undefined : aims);
}

type SongTable = "voices" | "phrases" | "gapOwners" | "singers" | "aims" | "barRounds";

/** One entry of a table; undefined takes it away. */
function put(doc: Y.Doc, name: SongTable, id: string, value: object | undefined): void {
  assert(
    name === "voices" || name === "phrases" || name === "gapOwners"
      ? isStoredId(id)
      : isContentId(id),
    "an id of its own",
  );
  assert(value === undefined || songShapes[name]({ [id]: value }, "").ok, "a value of its kind");
  editChart(doc, (chart) => {
    const table: Table = chart[name];
    if (value === undefined) table.delete(id);
    else if (name === "voices" || name === "phrases" || name === "gapOwners")
      setKeeping(table, id, value, knownFields[name]);
    else table.set(id, value);
  });
}
