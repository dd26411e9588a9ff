/**
 * What the seam says of a fill to those who do not see it.
 *
 * @vitest-environment jsdom
 */
import { fillDocuments } from "@halflap/board/copy";
import { demoSolution } from "@halflap/board/demo";
import { emptyDocuments } from "@halflap/board/documents";
import { setKey } from "@halflap/board/edits/chart";
import { makeReader } from "@halflap/board/read";
import { parseKey } from "@halflap/theory/key";
import { cleanup, render } from "@solidjs/testing-library";
import { afterEach, expect, test } from "vitest";
import { type Desk, DeskProvider } from "../board/desk.ts";
import { makeLiveBoard } from "../session/follow.ts";
import { SeamFigures } from "./SeamFigures.tsx";

afterEach(cleanup);

test("the notes of a fill are spelled by the key as it is now", () => {
  const documents = emptyDocuments();
  fillDocuments(documents, demoSolution());
  const read = makeReader(documents);
  const live = makeLiveBoard(read());
  const { board } = live;
  const inKey = (text: string) => {
    const key = parseKey(text);
    if (!key.ok) throw new Error(`${text} is a key`);
    setKey(documents.board, key.value);
    live.follow(read());
  };
  inKey("Db");
  const { getAllByRole } = render(() => (
    <DeskProvider value={{ session: { board }, isPicked: () => false } as unknown as Desk}>
      {board.sections.map((section) =>
        section.bars.map((bar) => (
          <SeamFigures section={section} bar={bar} scale={{ low: 40, high: 80 }} />
        )),
      )}
    </DeskProvider>
  ));
  const said = () =>
    getAllByRole("img")
      .map((each) => each.getAttribute("aria-label"))
      .join();
  expect(said()).toContain("♭");
  inKey("B");
  expect(said()).toContain("♯");
  expect(said()).not.toContain("♭");
});
