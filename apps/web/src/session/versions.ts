/**
 * By which version of Halflap the documents were written: older ones are lifted once they are in
 * step with the server, newer ones are told.
 */
import { laneIds } from "@halflap/board/board";
import { type BoardDocuments, laneDocument } from "@halflap/board/documents";
import { isNewer, migrateDocument } from "@halflap/board/migrate";
import { type Accessor, createEffect, createSignal, onCleanup } from "solid-js";

const lifted = ["board", ...laneIds.map(laneDocument)] as const;

export type VersionPorts = {
  documents(): BoardDocuments;
  /** Whether all of a document is here, and I may write it. */
  mayLift(name: (typeof lifted)[number]): boolean;
};

/** Whether a newer Halflap wrote any of it, live. Lives as long as the reactive owner. */
export function createVersions({ documents, mayLift }: VersionPorts): Accessor<boolean> {
  const [newer, setNewer] = createSignal(false);
  createEffect(() => {
    const docs = documents();
    const look = () => setNewer(isNewer(docs));
    look();
    for (const name of lifted) {
      docs[name].on("update", look);
      onCleanup(() => docs[name].off("update", look));
    }
  });
  for (const name of lifted) {
    createEffect(() => {
      if (mayLift(name)) migrateDocument(documents()[name], name === "board" ? "board" : "lane");
    });
  }
  return newer;
}
