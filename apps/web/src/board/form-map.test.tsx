/**
 * The form as a line says how many bars are played, and leads to its sections.
 *
 * @vitest-environment jsdom
 */

import { setRounds } from "@halflap/board/edits/singing";
import { barId, sectionId } from "@halflap/board/ids";
import { cleanup, fireEvent, screen } from "@solidjs/testing-library";
import { afterEach, expect, test, vi } from "vitest";
import { FormMap } from "./FormMap.tsx";
import { openBoard } from "./test-support/open-board.tsx";

afterEach(cleanup);

test("an ending counts in its own rounds only", () => {
  const { documents, chart, draw } = openBoard();
  chart.setForm([{ section: sectionId("tag"), times: 2 }]);
  setRounds(documents.board, { bar: barId("tag-3"), rounds: [1] });
  setRounds(documents.board, { bar: barId("tag-4"), rounds: [2] });
  draw(() => <FormMap />);
  expect(screen.getByRole("link").textContent).toBe("Tag × 266 bars");
});

test("a jump takes the focus along, and does not glide for whoever wants no motion", () => {
  const { draw } = openBoard();
  draw(() => (
    <>
      <FormMap />
      <section id="section-tag">
        <h2 id="section-tag-name" tabindex="-1">
          Tag
        </h2>
      </section>
    </>
  ));
  const scroll = vi.spyOn(Element.prototype, "scrollIntoView");
  fireEvent.click(screen.getByRole("link", { name: /^Tag/ }));
  expect(scroll).toHaveBeenCalledWith({ behavior: "instant", block: "start" });
  expect(document.activeElement?.textContent?.trim()).toBe("Tag");
});
