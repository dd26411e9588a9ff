/**
 * The demo tune, "Paper Ferry Home", twice: as two guitarists first bring it, and as they make it
 * fit.
 */
import { parseKey } from "@halflap/theory/key";
import { assert } from "@halflap/theory/units";
import type { LaneId } from "./board.ts";
import { type BoardCopy, copyFormat, copyVersion, type LaneCopy } from "./copy.ts";
import { plainLane } from "./lane-copy.ts";
import { barLengthOf, commonTime } from "./meter.ts";
import { plainSong, unsaidSettings } from "./song-shape.ts";

type SectionName = "intro" | "verse" | "chorus" | "solo" | "tag";
/** What a lane plays: grips in the order of the slots, and marks by bar number. */
type Part = { readonly grips: string; readonly marks: Readonly<Record<number, string>> };
type LanePart = Readonly<Record<Exclude<SectionName, "solo">, Part>>;

const chart: Readonly<Record<Exclude<SectionName, "solo">, string>> = {
  intro: "F7 | Bb7 | G7 | C7",
  verse: "F7 | F7 D7 | Gm7 | Gm7 C7 | F7 | A7 | Dm7 G7 | C7",
  chorus: "Bb7 | Bdim7 | F7/C | D7 | G7 | C7 | F7 Bb7 | F7 C7",
  tag: "G7 | C7 | F7 | F7",
};
const order = ["intro", "verse", "chorus", "solo", "tag"] as const;
const names = { intro: "Intro", verse: "Verse", chorus: "Chorus", solo: "Solo", tag: "Tag" };
const form = ["intro", "verse", "chorus", "verse", "chorus", "solo", "chorus", "tag"] as const;

const draft: Readonly<Record<LaneId, LanePart>> = {
  // The high part has its capo on fret 3 and counts its frets from there.
  upper: {
    intro: {
      grips: "x-x-0-2-1-2 3-2-0-0-0-1 0-2-0-1-0-0 x-0-2-2-2-0",
      marks: { 1: "D.DU.UDU" },
    },
    verse: {
      grips: `x-x-0-2-1-2 x-x-0-2-1-2 x-2-1-2-0-2 0-2-2-0-3-0 0-2-2-0-3-0 x-0-2-2-2-0
        1-3-1-2-1-1 2-4-2-3-2-2 x-2-0-2-0-2 0-2-0-1-0-0 x-0-2-0-3-0`,
      marks: {
        1: "D.DU.UDU",
        2: "fill on 1, around fret 5",
        4: "fill on 3, around fret 5",
        8: "fill on 2, around fret 10",
      },
    },
    chorus: {
      grips: `3-2-0-0-0-1 x-x-0-1-0-1 x-0-0-2-1-2 x-2-1-2-0-2 0-2-0-1-0-0 x-0-2-0-2-0
        x-x-0-2-1-2 3-2-0-0-0-1 x-x-0-2-1-2 x-0-2-0-2-0`,
      marks: { 1: "DUDUDUDUDUDUDUDU" },
    },
    tag: { grips: "0-2-0-1-0-0 x-0-2-0-2-0 x-x-0-2-1-2 x-x-0-2-1-2", marks: { 4: "stop on 1" } },
  },
  lower: {
    intro: {
      grips: "1-3-1-2-1-1 x-1-3-1-3-1 3-2-0-0-0-1 x-3-2-0-1-0",
      marks: { 1: "D.DU.UDU" },
    },
    verse: {
      grips: `1-3-1-2-1-1 1-3-1-2-1-1 x-x-0-2-1-2 3-5-3-3-3-3 3-5-3-3-3-3 x-3-2-0-1-0
        1-3-1-2-1-1 x-0-2-0-2-0 x-x-0-2-1-1 3-2-0-0-0-1 x-3-2-0-1-0`,
      marks: { 1: "D.DU.UDU", 4: "fill on 3", 8: "fill on 3" },
    },
    chorus: {
      grips: `x-1-3-1-3-1 x-2-3-1-3-x x-3-3-2-4-x x-5-4-5-3-x 3-2-0-0-0-1 x-3-2-3-1-0
        1-3-1-2-1-1 x-1-3-1-3-1 1-3-1-2-1-1 x-3-2-3-1-0`,
      marks: { 1: "DUDUDUDUDUDUDUDU" },
    },
    tag: { grips: "3-2-0-0-0-1 x-3-2-3-1-0 1-3-1-2-1-1 1-3-1-2-1-1", marks: { 4: "stop on 1" } },
  },
};

const solution: Readonly<Record<LaneId, LanePart>> = {
  upper: {
    intro: {
      grips: "",
      marks: {
        1: "answer on 3: string 2 frets 10, 8, 6",
        2: "answer on 3: string 2 frets 9, 8, 6",
        3: "answer on 3: string 2 frets 8, 6, 5",
        4: "answer: string 2 fret 8 on 3, string 1 fret 8 on 4",
      },
    },
    verse: {
      grips: `x-x-x-x-8-8 x-x-x-x-8-8 x-x-x-x-10-10 x-x-x-x-10-10 x-x-x-x-10-10 x-x-x-x-8-10
        x-x-x-x-8-8 x-x-x-x-10-12 x-x-x-x-10-12 x-x-x-x-8-12 x-x-x-x-8-10`,
      marks: {
        1: "..D..UD.",
        2: "fill on 3: string 2 fret 10, string 1 frets 8, 10",
        6: "fill on 3: string 1 frets 12, 10, string 2 fret 10",
      },
    },
    chorus: {
      grips: `x-x-x-x-11-13 x-x-x-x-12-13 x-x-x-x-13-13 x-x-x-14-15-x x-x-x-12-15-x x-x-x-12-13-x
        x-x-x-12-13-x x-x-x-10-13-x x-x-x-12-13-x x-x-x-12-15-x`,
      marks: { 1: ".U.U.U.U" },
    },
    tag: {
      grips: "x-x-x-12-15-x x-x-x-12-13-x x-x-x-x-8-8 x-x-x-x-8-8",
      marks: { 4: "stop on 1, let ring" },
    },
  },
  lower: {
    intro: {
      grips: "x-x-3-2-4-x x-x-3-1-3-x x-x-3-4-3-x x-x-2-3-1-x",
      marks: { 1: "D.D....." },
    },
    verse: {
      grips: `x-x-3-2-4-x x-x-3-2-4-x x-x-4-5-3-x x-x-3-3-3-x x-x-3-3-3-x x-x-2-3-1-x
        x-x-3-2-4-x x-x-2-0-2-x x-x-3-2-1-x x-x-3-4-3-x x-x-2-3-1-x`,
      marks: {
        1: "D...D...",
        4: "fill on the and of 3: string 4 fret 2, string 3 frets 0, 2",
        8: "fill on 3: string 4 fret 2, string 3 frets 0, 1",
      },
    },
    chorus: {
      grips: `x-x-3-1-3-x x-x-3-1-3-x x-x-3-2-4-x x-x-4-5-3-x x-x-3-4-3-x x-x-2-3-1-x
        x-x-3-2-4-x x-x-3-1-3-x x-x-3-2-4-x x-x-5-3-5-x`,
      marks: { 1: "D.D.D.D. palm on the strings" },
    },
    tag: {
      grips: "x-x-3-4-3-x x-x-2-3-1-x x-x-3-2-4-x x-x-3-2-4-x",
      marks: { 4: "stop on 1, let ring" },
    },
  },
};

/** Two parts made apart from each other: the same register, the same notes, the same rhythm. */
export function demoDraft(): BoardCopy {
  const upper = { ...laneOf(draft.upper), capo: 3, fretsFrom: "capo" } as const;
  return tune("Paper Ferry Home (first draft)", { upper, lower: laneOf(draft.lower) });
}

/** The same tune once the two parts lie flush. */
export function demoSolution(): BoardCopy {
  const lanes = { upper: laneOf(solution.upper), lower: laneOf(solution.lower) };
  return tune("Paper Ferry Home", lanes);
}

function tune(title: string, lanes: BoardCopy["lanes"]): BoardCopy {
  const key = parseKey("F");
  assert(key.ok, "F is a key");
  return {
    format: copyFormat,
    version: copyVersion,
    title,
    key: key.value,
    tempo: 104,
    meter: commonTime,
    feel: "straight",
    hasBass: true,
    ...unsaidSettings,
    sections: order.map((id) =>
      id === "solo"
        ? { id, name: names[id], borrows: "verse", bars: [] }
        : { id, name: names[id], bars: barsOf(id) },
    ),
    form: form.map((section, i) => ({ id: `form-${i + 1}`, section, times: 1 })),
    silences: [],
    setAside: { bars: [], slots: [] },
    ...plainSong(),
    lanes,
  };
}

/** Bars `verse-1`, `verse-2`; slots `verse-2-1`, `verse-2-2`. */
function barsOf(section: Exclude<SectionName, "solo">): BoardCopy["sections"][number]["bars"] {
  return chart[section].split(" | ").map((bar, i) => {
    const id = `${section}-${i + 1}`;
    const chords = bar.split(" ");
    const share = barLengthOf(commonTime) / chords.length;
    const slots = chords.map((chord, j) => ({ id: `${id}-${j + 1}`, at: j * share, chord }));
    return { id, slots };
  });
}

/** The solo plays the verse's chords with the verse's grips and marks. */
function laneOf(part: LanePart): LaneCopy {
  const grips: [string, string][] = [];
  const marks: [string, string][] = [];
  for (const section of order) {
    const [source, prefix] = section === "solo" ? (["verse", "solo~"] as const) : [section, ""];
    const slots = barsOf(source).flatMap((bar) => bar.slots);
    const written = part[source].grips.split(/\s+/).filter((grip) => grip !== "");
    assert(written.length === 0 || written.length === slots.length, "a grip for each slot");
    for (const [i, grip] of written.entries()) grips.push([`${prefix}${slots[i]?.id}`, grip]);
    for (const [number, text] of Object.entries(part[source].marks)) {
      marks.push([`${prefix}${source}-${number}`, text]);
    }
  }
  return { ...plainLane(), grips: Object.fromEntries(grips), marks: Object.fromEntries(marks) };
}
