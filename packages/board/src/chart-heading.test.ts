/** Lines before the music: what is title or settings, and what is told to be none of them. */
import { describe, expect, test } from "vitest";
import { draftOf, namesOf, places, words } from "./test-support/chart-reading.ts";

describe("C1 heading", () => {
  test("the first line of settings before the music is the settings, wherever it stands", () => {
    const text = "Harbour Light\nwords by somebody\nG, 96, 6/8\n\nVerse\n| G7 |";
    expect(places(text)).toEqual(["2:1 words by somebody"]);
    expect(words(text)[0]).toContain("Leave it out");
    const without = text.replace("words by somebody\n", "\n");
    expect(draftOf(without)).toMatchObject({ title: "Harbour Light", tempo: 96 });
    expect(places("Title\n\nIntro\n\nG, 96\nVerse\n| G7 |\n")).toEqual(["3:1 Intro"]);
  });

  test("a lone first line before a form or a section that borrows is the title", () => {
    const formed = draftOf("Title\nForm: Verse x2\nVerse\n| F7 |");
    expect(formed).toMatchObject({ title: "Title", form: [{ section: 0, times: 2 }] });
    expect(formed?.sections).toHaveLength(1);
    expect(draftOf("Title\nSolo = Verse\nVerse\n| F7 |")?.title).toBe("Title");
    expect(draftOf("Solo = Verse\nVerse\n| F7 |")?.title).toBe("");
  });

  test.each([
    ["G major 96", { title: "", key: { tonic: "G", mode: "major" }, tempo: 96 }],
    ["Swing 6/8 96", { title: "", feel: "swing", meter: { beats: 6, unit: 8 }, tempo: 96 }],
    ["Key: Am Tempo: 96 bpm, no bass", { tempo: 96, hasBass: false }],
    ["Harbour Light\nG major 96", { title: "Harbour Light", tempo: 96 }],
    ["A minor swing", { title: "A minor swing", tempo: 120 }],
  ])("settings may stand without commas where a number is among them: %j", (heading, wanted) => {
    expect(draftOf(`${heading}\n\nVerse\n| F7 |`)).toMatchObject(wanted);
  });

  test("a problem among settings without commas is told at its own place", () => {
    expect(places("Swing 6/8 96 100\n| F7 |")).toEqual(["1:14 100"]);
  });

  test("a tempo or meter that is none is told, also where it stands alone", () => {
    expect(places("Tempo: 1000\n\nVerse\n| F7 |")).toEqual(["1:1 Tempo: 1000"]);
    expect(words("Title\n1000 bpm\n| F7 |")[0]).toContain("between 20 and 400");
    expect(places("Time: 4/5\n\nVerse\n| F7 |")).toEqual(["1:1 Time: 4/5"]);
    expect(draftOf("1984\n\nVerse\n| F7 |")?.title).toBe("1984");
  });
});

describe("C2 a section before the music without bars", () => {
  test("is told, unless it borrows, has a colon, or the form names it", () => {
    expect(places("C, 120\n\nIntro\n\nVerse\n| F7 |")).toEqual(["3:1 Intro"]);
    expect(namesOf("C, 120\nSolo = Verse\nVerse\n| F7 |")).toEqual(["Solo", "Verse"]);
    expect(namesOf("C, 120\nIntro:\nVerse\n| F7 |")).toEqual(["Intro", "Verse"]);
    expect(namesOf("Intro :\nVerse\n| F7 |")).toEqual(["Intro", "Verse"]);
    const formed = "C, 120\nIntro\nVerse\n| F7 |\nForm: Intro, Verse";
    expect(namesOf(formed)).toEqual(["Intro", "Verse"]);
    expect(places("C, 120\nIntro\nVerse\n| F7 |\nForm: Verse")).toEqual(["2:1 Intro"]);
  });
  test("is read after the music has begun", () => {
    expect(namesOf("C, 120\nVerse\n| F7 |\n\nTag")).toEqual(["Verse", "Tag"]);
  });
});
