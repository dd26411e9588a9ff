/** Chart text: what is read, what is forgiven, and what is told about the rest. */
import { describe, expect, test } from "vitest";
import { parseChartText } from "./chart-text.ts";

const common = { beats: 4, unit: 4 } as const;

/** Bars as "0 F7, 96 C7", by section. */
function read(text: string): Record<string, string[]> {
  const { draft, problems } = parseChartText(text);
  expect(problems).toEqual([]);
  const sections = draft?.sections ?? [];
  return Object.fromEntries(
    sections.map(({ name, bars }) => [
      name,
      bars.map(({ slots }) => slots.map(({ at, chord }) => `${at} ${chord}`).join(", ")),
    ]),
  );
}

const bars = (text: string) => Object.values(read(text)).flat();

function problems(text: string): string[] {
  const result = parseChartText(text);
  expect(result.draft === undefined).toBe(result.problems.length > 0);
  return result.problems.map(({ line, column, read, meant }) => {
    return `${line}:${column} ${read}${meant === undefined ? "" : ` → ${meant}`}`;
  });
}

test("a chart as it is written in a message", () => {
  const text = `Bb, 126, swing

Intro
| Bb6 | G7 | Cm7 | F7 |

Verse
| Bb6 | D7 | Gm7 . C7 . | % |
| Eb6 | Edim7 | Bb/F | F7 |
`;
  const { draft } = parseChartText(text);
  expect(draft).toMatchObject({
    title: "",
    key: { tonic: "Bb", mode: "major" },
    tempo: 126,
    meter: common,
    feel: "swing",
    hasBass: true,
    form: [],
  });
  expect(read(text)).toEqual({
    Intro: ["0 Bb6", "0 G7", "0 Cm7", "0 F7"],
    Verse: [
      ...["0 Bb6", "0 D7", "0 Gm7, 96 C7", "0 Gm7, 96 C7"],
      ...["0 Eb6", "0 Edim7", "0 Bb/F", "0 F7"],
    ],
  });
});

describe("C1 heading", () => {
  test.each([
    ["F, 104, 4/4, straight", { key: { tonic: "F", mode: "major" }, tempo: 104 }],
    ["swing, 126 bpm, Am", { key: { tonic: "A", mode: "minor" }, tempo: 126, feel: "swing" }],
    ["key of G minor, ♩ = 92.5", { key: { tonic: "G", mode: "minor" }, tempo: 92.5 }],
    ["6/8, shuffle, no bass", { meter: { beats: 6, unit: 8 }, feel: "shuffle", hasBass: false }],
    ["with bass; 72", { hasBass: true, tempo: 72 }],
    ["Key: F, Tempo: 104", { key: { tonic: "F", mode: "major" }, tempo: 104 }],
    ["key : G minor; Time: 3/4", { key: { tonic: "G", mode: "minor" }, meter: { beats: 3 } }],
    ["Meter: 6/8, Feel: swing feel", { meter: { beats: 6, unit: 8 }, feel: "swing" }],
    ["Tempo: ♩ = 92 bpm", { tempo: 92 }],
    ["", { key: { tonic: "D", mode: "minor" }, tempo: 120, meter: common, feel: "straight" }],
  ])("%s", (heading, wanted) => {
    expect(parseChartText(`${heading}\nIntro\n| Dm7 |`).draft).toMatchObject(wanted);
  });

  test("a title stands before the settings, or alone", () => {
    const titled = "Paper Ferry\nF, 104\n\nIntro\n| F7 |";
    expect(parseChartText(titled).draft).toMatchObject({ title: "Paper Ferry", tempo: 104 });
    const alone = "Paper Ferry\n\nIntro\n| F7 |";
    expect(parseChartText(alone).draft?.title).toBe("Paper Ferry");
    expect(parseChartText("Bb\nBb, 120\n| F7 |").draft?.title).toBe("Bb");
  });

  test("a single letter right before the music is a section's name", () => {
    expect(Object.keys(read("A\n| F7 |\nB\n| C7 |"))).toEqual(["A", "B"]);
    expect(parseChartText("Bb\n| F7 |").draft?.key.tonic).toBe("Bb");
  });

  test("what is no setting is told, with what was meant", () => {
    expect(problems("Bb, 126, swong\n| F7 |")).toEqual(["1:10 swong → swing"]);
    expect(problems("Bb, 1000, 4/4\n| F7 |")).toEqual(["1:5 1000"]);
    expect(problems("Bb, 120, 4/5\n| F7 |")).toEqual(["1:10 4/5 → 4/4"]);
    expect(problems("Bb, 120, 96\n| F7 |")).toEqual(["1:10 96"]);
    expect(problems("Key: Bb, Tempo: 1000\n| F7 |")).toEqual(["1:10 Tempo: 1000"]);
    expect(problems("Key: Bb, Feel: swong\n| F7 |")).toEqual(["1:10 Feel: swong → swing"]);
    expect(problems("Tempo: 104, Key: 96\n| F7 |")).toEqual(["1:13 Key: 96"]);
    expect(parseChartText("Time: never\n\nVerse\n| F7 |").draft?.title).toBe("Time: never");
  });
});

describe("C2 sections", () => {
  test("are named on lines of their own, or before a colon", () => {
    expect(read("Verse:\n| F7 |\nlast chorus\n| C7 |\nTag: | D7 | G7 |")).toEqual({
      Verse: ["0 F7"],
      "last chorus": ["0 C7"],
      Tag: ["0 D7", "0 G7"],
    });
  });
  test("bars before any name belong to a section of their own", () => {
    expect(read("| F7 |\n| C7 |")).toEqual({ Tune: ["0 F7", "0 C7"] });
  });
  test("two may not share a name", () => {
    expect(problems("Verse\n| F7 |\nverse\n| C7 |")).toEqual(["3:1 verse → verse 2"]);
  });
  test("the name that is offered is free, short enough, and replaces the name alone", () => {
    const rest = "Intro\n| F7 |\nVerse = Intro\nVerse 2\n| C7 |\n";
    expect(problems(`${rest}  Verse = Intro`)).toEqual(["6:3 Verse → Verse 3"]);
    expect(problems(`${rest}Verse : | F7 |`)).toEqual(["6:1 Verse → Verse 3"]);
    expect(problems(`${rest}verse 2:\n| F7 |`)).toEqual(["6:1 verse 2 → verse 3"]);
    expect(problems("A\n| F7 |\nA\n| C7 |\nA 2\n| G7 |")).toEqual(["3:1 A → A 3"]);
    const long = "x".repeat(60);
    const shorter = `${"x".repeat(50)} 2`;
    expect(problems(`${long}\n| F7 |\n${long}\n| C7 |`)).toEqual([`3:1 ${long} → ${shorter}`]);
  });
  test("a name that ends in a count is told, with the form that says it", () => {
    const told = (text: string) => parseChartText(text).problems.map(({ words }) => words);
    const counted = "Verse x2\n| F7 |\nForm: Verse x2";
    expect(problems(counted)).toEqual(["1:1 Verse x2 → Verse"]);
    expect(told(counted)[0]).toContain("Form: Verse x2");
    expect(problems("| F7 |\n 3 x Verse : | C7 |")).toEqual(["2:2 3 x Verse → Verse"]);
    expect(problems("A\n| F7 |\nSolo 2x = A")).toEqual(["3:1 Solo 2x → Solo"]);
    expect(problems("Verse ×2\n| F7 |")).toEqual(["1:1 Verse x2 → Verse"]);
    expect(read("Verse 2\n| F7 |")).toEqual({ "Verse 2": ["0 F7"] });
    expect(problems("|: F7 :|\nx3\n| C7 |")).toEqual(["2:1 x3"]);
    expect(told("|: F7 :|\nx3")[0]).toContain(":| x3");
  });
  test("chords without bar lines are told from a name", () => {
    expect(problems("Verse\nF7 C7\n| F7 |")).toEqual(["2:1 F7 C7 → | F7 | C7 |"]);
  });
});

describe("C3 bars", () => {
  test.each([
    ["outer bar lines missing", "F7 | C7"],
    ["doubled bar lines", "|| F7 | C7 ||"],
    ["final bar lines", "[| F7 | C7 |]"],
    ["no spaces", "|F7|C7|"],
  ])("%s", (_, line) => expect(bars(`Verse\n${line}`)).toEqual(["0 F7", "0 C7"]));

  test("an empty bar is told", () => {
    expect(problems("| F7 |  | C7 |")).toEqual(["1:9  → %"]);
  });

  test("commas between chords are no part of them", () => {
    expect(bars("| C, D, E, F | C7(b9,13) , . , |")).toEqual([
      "0 C, 48 D, 96 E, 144 F",
      "0 C7(b9,13)",
    ]);
    expect(problems("| C, Dq, |")).toEqual(["1:6 Dq → D7"]);
    expect(problems("| F7 |\nC, D\n| G7 |")).toEqual(["2:1 C, D → | C | D |"]);
  });
});

describe("C4 beats", () => {
  test.each([
    ["4/4", "F7 C7", "0 F7, 96 C7"],
    ["4/4", "F7 . . C7", "0 F7, 144 C7"],
    ["4/4", "F7 / C7 -", "0 F7, 96 C7"],
    ["4/4", "F7 ... ", "0 F7"],
    ["4/4", "F7 . . . . . . C7", "0 F7, 168 C7"],
    ["3/4", "F7 . C7", "0 F7, 96 C7"],
    ["5/4", "F7 . . C7 .", "0 F7, 144 C7"],
    ["6/8", "F7 C7", "0 F7, 72 C7"],
    ["6/8", "F7 . . . . C7", "0 F7, 120 C7"],
    ["12/8", "F7 . C7 D7", "0 F7, 144 C7, 216 D7"],
    ["7/8", "F7 . . . C7 . .", "0 F7, 96 C7"],
    ["2/2", "F7 C7", "0 F7, 96 C7"],
    ["4/4", "N.C.", "0 N.C."],
  ])("%s %s", (meter, bar, wanted) => {
    expect(bars(`F, ${meter}\n| ${bar} |`)).toEqual([wanted]);
  });

  test("entries that don't share the bar are told, with dots put in", () => {
    expect(problems("F, 4/4\n| F7 C7 D7 |")).toEqual(["2:3 F7 C7 D7 → F7 C7 D7 ."]);
    expect(problems("F, 3/4\n| F7 C7 |")).toEqual(["2:3 F7 C7 → F7 C7 ."]);
    expect(problems("F, 4/4\n| F7 . . . . |")).toEqual(["2:3 F7 . . . ."]);
    expect(problems("| C |  3/4 F7 C7  | G |")).toEqual(["1:12 F7 C7 → F7 C7 ."]);
    expect(problems("| C | 3/4 |")).toEqual(["1:7 3/4"]);
  });
});

describe("C5 to C8", () => {
  test("C5 a dot at the start goes on with the chord before, within the section", () => {
    expect(bars("| F7 | . . C7 . | . |")).toEqual(["0 F7", "96 C7", ""]);
    expect(problems("| . C7 |")).toEqual(["1:3 . → N.C."]);
  });
  test("C6 % writes the bar before once more, and stands alone", () => {
    expect(bars("A\n| F7 C7 | % |\nB\n| % |")).toEqual([
      "0 F7, 96 C7",
      ...["", ""].map(() => "0 F7, 96 C7"),
    ]);
    expect(problems("| % |")).toEqual(["1:3 %"]);
    expect(problems("| F7 | % C7 |")).toEqual(["1:8 %"]);
  });
  test("C6 % begins with the chord that is heard at the start of the bar before", () => {
    expect(bars("| F7 | . . G7 . | % |")).toEqual(["0 F7", "96 G7", "0 F7, 96 G7"]);
    expect(bars("| F7 | . | % | G7 |")).toEqual(["0 F7", "", "0 F7", "0 G7"]);
    expect(bars("A\n| F7 C7 | . |\nB\n| % |")).toEqual(["0 F7, 96 C7", "", "0 C7"]);
  });
  test("C7 a bar may have a meter of its own", () => {
    const { draft } = parseChartText("| F7 | 2/4 C7 . | F7 |");
    expect(draft?.sections[0]?.bars.map(({ length }) => length)).toEqual([
      undefined,
      96,
      undefined,
    ]);
    expect(problems("| 5/3 F7 |")).toEqual(["1:3 5/3 → 2/4"]);
  });
  test("C7 a meter in which the bar would not be counted is told, with what says the same", () => {
    const kept = (text: string) => {
      const found = parseChartText(text).problems;
      expect(found.map(({ words }) => words)).toEqual([expect.stringContaining("counts as")]);
      return found[0]?.meant;
    };
    expect(kept("4/4\n| C7 | 6/8 F7 |")).toBe("3/4 F7");
    expect(kept("4/4\n| C7 | 6/8 F7 C7 |")).toBe("3/4 F7 . . C7 . .");
    expect(kept("6/8\n| C7 | 3/4 F7 C7 G7 |")).toBe("F7 . C7 . G7 .");
    expect(bars("4/4\n| 2/2 F7 C7 |")).toEqual(["0 F7, 96 C7"]);
    expect(bars("6/8\n| 2/4 F7 C7 |")).toEqual(["0 F7, 48 C7"]);
    expect(bars("4/4\n| C7 | 3/4 F7 . . C7 . . |")).toEqual(["0 C7", "0 F7, 72 C7"]);
    expect(bars("6/8\n| C7 | F7 . C7 . G7 . |")).toEqual(["0 C7", "0 F7, 48 C7, 96 G7"]);
    expect(bars("4/4\n| 4/4 C7 | 5/8 F7 |")).toEqual(["0 C7", "0 F7"]);
  });
  test("C8 repeats are written out", () => {
    expect(bars("|: F7 | C7 :| G7 |")).toEqual(["0 F7", "0 C7", "0 F7", "0 C7", "0 G7"]);
    expect(bars("|: F7 :| x3")).toEqual(["0 F7", "0 F7", "0 F7"]);
    expect(bars("F7 | C7 :|")).toHaveLength(4);
    expect(bars("|: F7 :|: C7 :|\n|: D7 |\nG7 :|")).toHaveLength(8);
    expect(problems("A\n|: F7 |\nB\n| C7 |")).toEqual(["2:1 |: → :|"]);
    expect(problems("|: F7 :| x99")).toEqual(["1:10 x99"]);
    expect(problems("|: F7 :|  0x | C7 |")).toEqual(["1:11 0x"]);
  });
});

describe("C9 and C10", () => {
  const tune = "Verse\n| F7 |\nSolo = verse\nTag\n| C7 |\n";
  test("C9 a section borrows by name, also one that follows", () => {
    expect(parseChartText(tune).draft?.sections[1]).toEqual({ name: "Solo", borrows: 0, bars: [] });
    const before = "Solo = Verse\nVerse\n| F7 |";
    expect(parseChartText(before).draft?.sections[0]?.borrows).toBe(1);
    expect(problems("Verse\n| F7 |\nSolo = Vers")).toEqual(["3:8 Vers → Verse"]);
    expect(problems("A = B\nB = a\nC\n| F7 |")).toEqual(["1:5 B", "2:5 a"]);
    expect(problems("Verse\n| F7 |\nSolo = Verse\n| C7 |")).toEqual(["4:3 C7"]);
  });
  test("C10 the form names sections, how often each", () => {
    const { draft } = parseChartText(`${tune}Form: Verse, solo x2, 3 x Verse, TAG`);
    expect(draft?.form).toEqual([
      { section: 0, times: 1 },
      { section: 1, times: 2 },
      { section: 0, times: 3 },
      { section: 2, times: 1 },
    ]);
    expect(problems(`${tune}Form: Verse, Chorus, Tagg x2`)).toEqual([
      "6:14 Chorus",
      "6:22 Tagg → Tag",
    ]);
  });
});

test("C11 forgives look-alikes, and keeps columns", () => {
  const text = "\ufeffB♭,\u00a0126\r\n\r\nVerse\u2003\r｜ B♭6\t│ C–7 ‖ F♯m7 … |";
  expect(bars(text.replace("F♯m7 …", "F♯m7…".replace("…", " …")))).toHaveLength(3);
  expect(problems("\ufeff| F7 | Hq |")[0]).toMatch(/^1:8 Hq/);
});

describe("C12 strict", () => {
  test("every bad chord is told where it stands", () => {
    expect(problems("Verse\n| Cq7 | F7 |\n| C7 | Zebra |\n")).toEqual([
      "2:3 Cq7 → C7",
      expect.stringMatching(/^3:8 Zebra/),
    ]);
  });
  test("a bar that can't be read is not held against those after it", () => {
    expect(problems("| Cq7 | % | . C7 |")).toEqual(["1:3 Cq7 → C7"]);
  });
  test("too much is refused, whatever it is", () => {
    expect(problems("x".repeat(70_000))).toEqual(["1:1 "]);
    expect(problems("| F7 | C7 | F7 | C7 |\n".repeat(129))).toHaveLength(1);
    expect(problems(`${"x".repeat(61)}\n${"y".repeat(61)}\n| F7 |`)).toHaveLength(1);
    expect(problems(`${"| F7 :| x32\n".repeat(20)}`)).toHaveLength(1);
    const many = Array.from({ length: 65 }, (_, i) => `S${i}\n| F7 |\n`).join("");
    expect(problems(many)).toHaveLength(1);
    expect(problems(`A\n| F7 |\nForm: ${"A,".repeat(129)}`)).toHaveLength(1);
  });
  test("a text without a bar is told", () => {
    for (const text of ["", "hello", "Bb, 120"]) expect(problems(text)).toHaveLength(1);
  });
});
