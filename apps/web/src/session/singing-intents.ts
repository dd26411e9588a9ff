/** What a player may say about who sings what, as edits on the chart's document. */
import type { Board } from "@halflap/board/board";
import { editOwn } from "@halflap/board/documents";
import * as edits from "@halflap/board/edits/singing";
import { gapOwnerId, voiceId } from "@halflap/board/ids";
import { nameMax } from "@halflap/board/limits";
import type { Voice } from "@halflap/board/singing";
import type * as Y from "yjs";
import { makeId } from "./own-id.ts";
import type { SingingIntents } from "./session.ts";
import { shortLine } from "./short-line.ts";

/** The commands, on the document as it is when each is called; inert while `may` says no. */
export function makeSingingIntents(
  document: () => Y.Doc,
  board: () => Board,
  may: () => boolean,
): SingingIntents {
  const edit = (change: (doc: Y.Doc) => void) => {
    if (may()) change(document());
  };
  return {
    addVoice(voice) {
      const id = voiceId(makeId());
      edit((doc) => edits.addVoice(doc, { ...named(voice), id }));
      return id;
    },
    changeVoice: (voice) => edit((doc) => edits.changeVoice(doc, named(voice))),
    removeVoice: (voice) => edit((doc) => edits.removeVoice(doc, voice)),
    rewritePhrases: (put, remove) =>
      edit((doc) =>
        editOwn(doc, () => {
          for (const phrase of remove) edits.removePhrase(doc, phrase);
          for (const phrase of put) edits.putPhrase(doc, phrase);
        }),
      ),
    setGapOwner(place, owner) {
      const { gapOwners, setAside } = board();
      const waiting = setAside.waiting.flatMap((each) =>
        each.kind === "gap" ? [{ id: each.id, bar: each.bar, at: each.start }] : [],
      );
      const known = [...gapOwners, ...waiting].find(
        (each) => each.bar === place.bar && each.at === place.at,
      );
      const id = known?.id ?? gapOwnerId(makeId());
      edit((doc) => {
        if (owner !== undefined) edits.setGapOwner(doc, { ...place, id, owner });
        else if (known !== undefined) edits.clearGapOwner(doc, id);
      });
    },
    setSingers: (entry, singers) => edit((doc) => edits.setSingers(doc, { entry, singers })),
  };
}

/** Somebody who sings, under a name as a document takes it. */
function named<T extends Omit<Voice, "id">>(voice: T): T {
  return { ...voice, name: shortLine(voice.name, nameMax) };
}
