/** Every kind of file that may be dropped on the door. */
import { demoDraft } from "@halflap/board/demo";
import { expect, test } from "vitest";
import { readChartFile } from "./chart-file.ts";

const file = (content: BlobPart, name: string, type = "") => new File([content], name, { type });

test("a board's copy is read as a copy", async () => {
  const copy = demoDraft();
  expect(await readChartFile(file(JSON.stringify(copy), "a.halflap.json"))).toEqual({
    kind: "copy",
    copy,
  });
});

test("a text file is read as chart text, to the letter", async () => {
  const text = "F, 104\r\n| F7 |\r\n";
  expect(await readChartFile(file(text, "tune.txt"))).toEqual({ kind: "text", text });
});

test.each([
  ["cut off", file('{"format": "halflap-', "a.json"), "cut off"],
  ["of another kind", file('{"format": "something"}', "a.json"), "not a copy"],
  ["a picture", file(new Uint8Array([137, 80, 78, 71, 0]), "a.png", "image/png"), "neither"],
  ["binary under a text's name", file(new Uint8Array([0, 159, 1]), "a.txt"), "neither"],
  ["too large", file(new Uint8Array(5 * 1024 * 1024 + 1), "a.json"), "larger"],
])("a file that is %s gets words that name it", async (_kind, given, words) => {
  const read = await readChartFile(given);
  expect(read).toMatchObject({ kind: "problem", words: expect.stringContaining(words) });
  expect(read).toMatchObject({ words: expect.stringContaining(given.name) });
});
