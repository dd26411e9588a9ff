/** One bar as it is typed and printed, and the whole chart as it is printed. */
import { ticks } from "@halflap/theory/units";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { draftCopy, parseChartText, printChartText } from "./chart-text.ts";
import { fillDocuments } from "./copy.ts";
import { demoSolution } from "./demo.ts";
import { emptyDocuments } from "./documents.ts";
import { renameSection, setChord, setTitle } from "./edits/chart.ts";
import { sectionId } from "./ids.ts";
import { parseBarText, printBarText } from "./one-bar.ts";
import { makeReader } from "./read.ts";

const common = { beats: 4, unit: 4 } as const;

describe("one bar", () => {
  test("is read against its own length", () => {
    const bar = parseBarText("Gm7 . C7 .", ticks(192), common);
    expect(bar).toEqual({
      ok: true,
      value: [
        { at: 0, chord: "Gm7" },
        { at: 96, chord: "C7" },
      ],
    });
    const short = parseBarText("Gm7 C7", ticks(96), common);
    expect(short.ok && short.value.map(({ at }) => at)).toEqual([0, 48]);
    const wrong = parseBarText("  Gm7 Cq7", ticks(192), common);
    expect(!wrong.ok && wrong.error).toMatchObject({
      line: 1,
      column: 7,
      read: "Cq7",
      meant: "C7",
    });
    expect(parseBarText("%", ticks(192), common).ok).toBe(false);
    expect(parseBarText("", ticks(192), common).ok).toBe(false);
  });
  test("is printed with as few words as say it", () => {
    const docs = emptyDocuments();
    const copy = draftCopy(
      parseChartText("| F7 | F7 C7 | F7 . . C7 | . . C7 . | F7 . . . . . . C7 |").draft ??
        (() => {
          throw new Error("a chart");
        })(),
      counter(),
    );
    fillDocuments(docs, copy);
    const [section] = makeReader(docs)().sections;
    expect(section?.bars.map((bar) => printBarText(bar, common))).toEqual([
      "F7",
      "F7 C7",
      "F7 . . C7",
      ". C7",
      "F7 . . . . . . C7",
    ]);
  });
});

test("the demo prints as one would write it", () => {
  const docs = emptyDocuments();
  fillDocuments(docs, demoSolution());
  expect(printChartText(makeReader(docs)())).toBe(`Paper Ferry Home
F, 104, 4/4, straight

Intro
| F7 | Bb7 | G7 | C7 |

Verse
| F7 | F7 D7 | Gm7 | Gm7 C7 |
| F7 | A7 | Dm7 G7 | C7 |

Chorus
| Bb7 | Bdim7 | F7/C | D7 |
| G7 | C7 | F7 Bb7 | F7 C7 |

Solo = Verse

Tag
| G7 | C7 | F7 | F7 |

Form: Intro, Verse, Chorus, Verse, Chorus, Solo, Chorus, Tag
`);
});

test("a name loses what means something here, and is told from the others", () => {
  const docs = emptyDocuments();
  fillDocuments(docs, demoSolution());
  renameSection(docs.board, sectionId("intro"), "Chorus");
  renameSection(docs.board, sectionId("tag"), " = | : ");
  setTitle(docs.board, "Form: a | b");
  const text = printChartText(makeReader(docs)());
  const { draft, problems } = parseChartText(text);
  expect(problems).toEqual([]);
  expect(draft?.title).toBe("Form a / b");
  const names = draft?.sections.map(({ name }) => name);
  expect(names).toEqual(["Chorus", "Verse", "Chorus 2", "Solo", "Section"]);
});

test("C3 a chord that was kept with a comma after it is printed without", () => {
  const { draft } = parseChartText("| F7 . C7 . |");
  if (draft === undefined) throw new Error("a chart");
  const docs = emptyDocuments();
  fillDocuments(docs, draftCopy(draft, counter()));
  const [first] = makeReader(docs)().sections[0]?.bars[0]?.slots ?? [];
  if (first !== undefined) setChord(docs.board, { slot: first.id, chord: "F7," });
  expect(printChartText(makeReader(docs)())).toContain("| F7 C7 |");
});

test("C2 a section without bars is printed with a colon, and reads back where it stands", () => {
  for (const first of ["Intro", "Form"]) {
    const { draft } = parseChartText("C, 120\nIntro:\nVerse\n| F7 |\nTag\nForm: Verse x2");
    if (draft === undefined) throw new Error("a chart");
    const docs = emptyDocuments();
    fillDocuments(docs, draftCopy(draft, counter()));
    const [opening] = makeReader(docs)().sections;
    if (opening !== undefined) renameSection(docs.board, opening.id, first);
    const printed = printChartText(makeReader(docs)());
    expect(parseChartText(printed).problems).toEqual([]);
    expect(parseChartText(printed).draft?.sections.map(({ bars }) => bars.length)).toEqual([
      0, 1, 0,
    ]);
  }
});

/** A board of two sections, played in a form that repeats the first, with a title and names. */
function named(title: string, names: readonly [string, string]) {
  const { draft } = parseChartText(
    "C, 120\n\nV\n| C | F |\n\nB\n| G |\n\nForm: V x2, B, V x3, B x2",
  );
  if (draft === undefined) throw new Error("a chart");
  const sections = draft.sections.map((section, i) => ({ ...section, name: names[i] ?? "" }));
  const docs = emptyDocuments();
  fillDocuments(docs, draftCopy({ ...draft, title, sections }, counter()));
  return { draft, board: makeReader(docs)() };
}

const awkward = [
  ...["A B", "C D", "N.C. C", "A\u200bB", "Part A B", "Verse", "verse", "Verse x2", "Verse x 3"],
  ...["2x Verse", "Verse times 2", "3 x Verse x2", "Verse 2x", "Verse x", "Verse ×2", "Form"],
  ...["Pre–Chorus", "Pre-Chorus", "a ‖ b", "F │ G", "a¦b", "\u200b", "\u00a0", "Form: x", "F, 104"],
  ...["A → B", "%", "x2", "Key: F", "Section", "Section 2", "\u2060Form: A", "A".repeat(60)],
];

test("a printed chart reads back, whatever its title and its sections are called", () => {
  const name = fc.oneof(
    fc.constantFrom(...awkward),
    fc.string({ maxLength: 12, unit: fc.constantFrom(..."AB2xX |:=–\u200b") }),
  );
  fc.assert(
    fc.property(name, name, name, (title, first, second) => {
      const { draft, board } = named(title, [first, second]);
      const text = printChartText(board);
      const read = parseChartText(text);
      expect(read.problems).toEqual([]);
      expect(read.draft?.form).toEqual(draft.form);
      expect(read.draft?.sections.map(({ bars }) => bars)).toEqual(
        draft.sections.map(({ bars }) => bars),
      );
      const names = read.draft?.sections.map((section) => section.name) ?? [];
      const again = named(read.draft?.title ?? "", [names[0] ?? "", names[1] ?? ""]);
      expect(printChartText(again.board)).toBe(text);
    }),
    { numRuns: 500 },
  );
});

test.each([
  ["A B", "Part A B"],
  ["Verse x2", "Verse times 2"],
  ["2x Verse", "2 times Verse"],
  ["F │ G", "Part F G"],
  ["x2", "times 2"],
  ["3×", "3 times"],
  [`2x ${"A".repeat(39)} x2${"y".repeat(15)}`, `2 times ${"A".repeat(39)} times 2`],
  ["Pre–Chorus", "Pre–Chorus"],
])("a section called %s is printed as %s", (name, printed) => {
  expect(printChartText(named("", ["Verse", name]).board).split("\n")).toContain(printed);
});

test("C11 the form finds a section whose name has a dash that looks like another", () => {
  const { draft } = parseChartText("Pre–Chorus\n| F7 |\n\nForm: Pre–Chorus x2");
  expect(draft?.form).toEqual([{ section: 0, times: 2 }]);
});

function counter(): () => string {
  let count = 0;
  return () => {
    count += 1;
    return `n${count}`;
  };
}
