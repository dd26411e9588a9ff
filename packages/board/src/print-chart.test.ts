/** One bar as it is typed and printed, and the whole chart as it is printed. */
import { ticks } from "@halflap/theory/units";
import { describe, expect, test } from "vitest";
import { draftCopy, parseChartText, printChartText } from "./chart-text.ts";
import { fillDocuments } from "./copy.ts";
import { demoSolution } from "./demo.ts";
import { emptyDocuments } from "./documents.ts";
import { renameSection, setTitle } from "./edits/chart.ts";
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

function counter(): () => string {
  let count = 0;
  return () => {
    count += 1;
    return `n${count}`;
  };
}
