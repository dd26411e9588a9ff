/**
 * A melody that is being typed is its phrase's alone.
 *
 * @vitest-environment jsdom
 */
import { putPhrase, removePhrase } from "@halflap/board/edits/singing";
import { phraseId } from "@halflap/board/ids";
import { ticks } from "@halflap/theory/units";
import { cleanup, fireEvent, screen } from "@solidjs/testing-library";
import { afterEach, expect, test } from "vitest";
import { MelodyFields } from "./MelodyFields.tsx";
import { openSinging } from "./test-support/open-singing.tsx";

afterEach(cleanup);

test("what is typed, and what is wrong with it, outlives phrases that come, move and go", () => {
  const { doc, read, verse } = openSinging((voice) => <MelodyFields voice={voice} />);
  const bars = new Map(verse.bars.map(({ id, number }) => [id, number]));
  const [first, ...others] = read().phrases.filter(({ bar }) => bars.has(bar));
  const last = verse.bars.at(-1);
  if (first === undefined || last === undefined) throw new Error("the demo's verse is sung");
  const field = screen.getAllByRole<HTMLInputElement>("textbox", { hidden: true })[0];
  if (field === undefined) throw new Error("a field for each phrase");
  fireEvent.change(field, { target: { value: "1 H4" } });
  const said = screen.getByRole("alert", { hidden: true }).textContent;
  const isThere = () => [field.isConnected, field.value, screen.queryByText(said)?.textContent];
  field.value = "1 H4 2";
  const kept = [true, "1 H4 2", said];
  const place = { start: ticks(180), length: ticks(12), melody: [] };
  putPhrase(doc, { id: phraseId("a-new-one"), bar: last.id, ...place });
  expect(isThere()).toEqual(kept);
  putPhrase(doc, { ...first, melody: [], start: ticks(first.start + 6), length: ticks(30) });
  expect(isThere()).toEqual(kept);
  for (const { id } of others) removePhrase(doc, id);
  expect(isThere()).toEqual(kept);
});
