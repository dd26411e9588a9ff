/**
 * What is typed for one singer stays that singer's.
 *
 * @vitest-environment jsdom
 */
import { addVoice } from "@halflap/board/edits/singing";
import { voiceId } from "@halflap/board/ids";
import { cleanup, fireEvent, screen } from "@solidjs/testing-library";
import { afterEach, expect, test } from "vitest";
import { singingWords } from "../words/singing.ts";
import { openSinging } from "./test-support/open-singing.tsx";
import { VoiceList } from "./VoiceList.tsx";

afterEach(cleanup);

const nobodyYet = { lane: undefined, type: undefined, range: undefined };
const field = (singer: string, label: string) => {
  const fields = screen.getByRole("group", { name: singer, hidden: true });
  const found = [...fields.querySelectorAll("label")].find((each) => each.textContent === label);
  const input = found?.querySelector("input");
  if (!input) throw new Error(`no ${label} of ${singer}`);
  return input;
};

test("a note typed for one is not the note of another who comes before", () => {
  const { doc, read } = openSinging(() => <VoiceList />);
  addVoice(doc, { ...nobodyYet, id: voiceId("m"), name: "Mara" });
  fireEvent.change(field("Mara", singingWords.low), { target: { value: "C3" } });
  addVoice(doc, { ...nobodyYet, id: voiceId("0-j"), name: "Jo" });
  expect(field("Jo", singingWords.low).value).toBe("");
  expect(field("Mara", singingWords.low).value).toBe("C3");
  fireEvent.change(field("Mara", singingWords.high), { target: { value: "C4" } });
  const ranges = read().voices.map(({ name, range }) => [name, range]);
  expect(ranges.filter(([name]) => name === "Jo" || name === "Mara")).toEqual([
    ["Jo", undefined],
    ["Mara", { low: 48, high: 60 }],
  ]);
});
