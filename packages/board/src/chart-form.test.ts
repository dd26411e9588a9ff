/** The form lines of a chart text: over how many lines, and how long. */
import { describe, expect, test } from "vitest";
import { formBarsMax } from "./limits.ts";
import { draftOf, namesOf, places, words } from "./test-support/chart-reading.ts";

describe("C10 a form", () => {
  const tune = "Verse\n| F7 |\nChorus\n| C7 |\n\n";
  const forms = [
    "Form:\nVerse, Chorus x2",
    "Form: Verse,\nChorus x2",
    "Form: Verse ->\n Chorus x2",
    "Form:\nVerse\nChorus x2",
  ];
  test.each(forms)("goes on into the next line: %j", (form) => {
    const draft = draftOf(tune + form);
    expect(draft?.sections).toHaveLength(2);
    expect(draft?.form).toEqual([
      { section: 0, times: 1 },
      { section: 1, times: 2 },
    ]);
  });
  test("ends with an empty line, and before bars", () => {
    expect(namesOf(`${tune}Form: Verse,\n\nTag\n| G7 |`)).toEqual(["Verse", "Chorus", "Tag"]);
    expect(namesOf("Form:\nVerse\n| F7 |")).toEqual(["Verse"]);
    expect(places(`${tune}Form:\nVerse, Chrous`)).toEqual(["7:8 Chrous"]);
  });
  test("that plays too much is told, with how much is allowed", () => {
    const most = `A\n${"| F7 :| x32\n".repeat(4)}Form: A x32`;
    expect(draftOf(most)?.form).toEqual([{ section: 0, times: formBarsMax / (4 * 32) }]);
    const long = `${most}, C\nB = A\nC = B`;
    expect(places(long)).toEqual(["6:1 Form: A x32, C"]);
    expect(words(long)[0]).toContain("4224 bars: 4096");
  });
});
