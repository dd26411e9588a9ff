/** A part of the voice's sheet over real documents, with another player who edits them too. */
import { fillDocuments } from "@halflap/board/copy";
import { demoDraft } from "@halflap/board/demo";
import { emptyDocuments } from "@halflap/board/documents";
import { makeReader } from "@halflap/board/read";
import { assert } from "@halflap/theory/units";
import { render } from "@solidjs/testing-library";
import type { JSX } from "solid-js";
import { type Desk, DeskProvider } from "../../board/desk.ts";
import { makeLiveBoard } from "../../session/follow.ts";
import type { Session } from "../../session/session.ts";
import { makeSingingIntents } from "../../session/singing-intents.ts";
import { createSectionVoice, type SectionVoice } from "../section-voice.ts";

/** Draws the part for the demo's verse; `doc` is where the other player edits the chart. */
export function openSinging(part: (voice: SectionVoice) => JSX.Element) {
  const documents = emptyDocuments();
  fillDocuments(documents, demoDraft());
  const doc = documents.board;
  const read = makeReader(documents);
  const live = makeLiveBoard(read());
  doc.on("update", () => live.follow(read()));
  let made = 0;
  const session = {
    board: live.board,
    mayEditChart: () => true,
    makeId: () => `new-${++made}`,
    singing: makeSingingIntents(
      () => doc,
      read,
      () => true,
    ),
  } as unknown as Session;
  const desk = { session } as unknown as Desk;
  const verse = live.board.sections.find(({ name }) => name === "Verse");
  const first = verse?.bars[0];
  assert(verse !== undefined && first !== undefined, "the demo has a verse");
  render(() => (
    <DeskProvider value={desk}>{part(createSectionVoice(desk, () => first.id))}</DeskProvider>
  ));
  return { doc, read, verse };
}
