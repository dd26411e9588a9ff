/** What the two guitars of the demo tune play: as first brought along, and as it lies flush. */
import type { LaneId } from "./board.ts";

/** The solo plays the verse. */
export type WrittenSection = "intro" | "verse" | "chorus" | "tag";

/** A fill as typed, from a beat to a beat of its bar. */
export type FillPart = {
  readonly from: number;
  readonly to: number;
  readonly notes: string;
  readonly kind: "fill" | "line";
};

/** A pattern as typed, with the length of its steps. */
export type StrumPart = {
  readonly name: string;
  readonly step: number;
  readonly steps: string;
  readonly palmMute: boolean;
};

/** What a lane plays in a section: grips in the order of the slots, fills by bar number. */
export type Part = {
  readonly grips: string;
  readonly strum: string | undefined;
  readonly fills: Readonly<Record<number, FillPart>>;
};

/** The pattern `stop` is that of the last bar of the tag, where both stop on one. */
export type LanePart = Readonly<Record<WrittenSection, Part>> & {
  readonly strums: Readonly<Record<string, StrumPart>>;
};

const eighth = 24;
const sixteenth = 12;

const stop = pattern("Stop", eighth, "D.......");
const draftStrums = {
  steady: pattern("Steady eighths", eighth, "D.DU.UDU"),
  driving: pattern("Driving sixteenths", sixteenth, "DUDUDUDUDUDUDUDU"),
  stop,
};

/** Two parts made apart from each other: the same register, the same notes, the same rhythm. */
export const draftParts: Readonly<Record<LaneId, LanePart>> = {
  // The high part has its capo on fret 3 and counts its frets from there.
  upper: {
    strums: draftStrums,
    intro: part("x-x-0-2-1-2 3-2-0-0-0-1 0-2-0-1-0-0 x-0-2-2-2-0", "steady"),
    verse: part(
      `x-x-0-2-1-2 x-x-0-2-1-2 x-2-1-2-0-2 0-2-2-0-3-0 0-2-2-0-3-0 x-0-2-2-2-0
       1-3-1-2-1-1 2-4-2-3-2-2 x-2-0-2-0-2 0-2-0-1-0-0 x-0-2-0-3-0`,
      "steady",
      {
        2: fill(1, 2.5, "1 3:5  1.5 2:7  2 1:5"),
        4: fill(3, 5, "3 3:6  3.5 2:5  4 1:5  4.5 2:5"),
        8: fill(2, 5, "2 3:9  2.5 2:8  3 2:10  3.5 1:9  4 2:10  4.5 2:8  4.75 2:10"),
      },
    ),
    chorus: part(
      `3-2-0-0-0-1 x-x-0-1-0-1 x-0-0-2-1-2 x-2-1-2-0-2 0-2-0-1-0-0 x-0-2-0-2-0
       x-x-0-2-1-2 3-2-0-0-0-1 x-x-0-2-1-2 x-0-2-0-2-0`,
      "driving",
    ),
    tag: part("0-2-0-1-0-0 x-0-2-0-2-0 x-x-0-2-1-2 x-x-0-2-1-2", undefined),
  },
  lower: {
    strums: draftStrums,
    intro: part("1-3-1-2-1-1 x-1-3-1-3-1 3-2-0-0-0-1 x-3-2-0-1-0", "steady"),
    verse: part(
      `1-3-1-2-1-1 1-3-1-2-1-1 x-x-0-2-1-2 3-5-3-3-3-3 3-5-3-3-3-3 x-3-2-0-1-0
       1-3-1-2-1-1 x-0-2-0-2-0 x-x-0-2-1-1 3-2-0-0-0-1 x-3-2-0-1-0`,
      "steady",
      {
        4: fill(3, 5, "3 5:3  3.5 4:2  4 3:0  4.5 2:1"),
        8: fill(3, 5, "3 5:3  3.5 4:2  4 3:0  4.5 3:3"),
      },
    ),
    chorus: part(
      `x-1-3-1-3-1 x-2-3-1-3-x x-3-3-2-4-x x-5-4-5-3-x 3-2-0-0-0-1 x-3-2-3-1-0
       1-3-1-2-1-1 x-1-3-1-3-1 1-3-1-2-1-1 x-3-2-3-1-0`,
      "driving",
    ),
    tag: part("3-2-0-0-0-1 x-3-2-3-1-0 1-3-1-2-1-1 1-3-1-2-1-1", undefined),
  },
};

/** The same tune with a register, a rhythm and gaps for each. */
export const solutionParts: Readonly<Record<LaneId, LanePart>> = {
  upper: {
    strums: {
      between: pattern("Between the beats", eighth, "..D..UD."),
      offbeats: pattern("Offbeats", eighth, ".U.U.U.U"),
      stop,
    },
    intro: part("", undefined, {
      1: line(3, 5, "3 2:10  3.5 2:8  4 2:6"),
      2: line(3, 5, "3 2:9  3.5 2:8  4 2:6"),
      3: line(3, 5, "3 2:8  3.5 2:6  4 2:5"),
      4: line(3, 5, "3 2:8  4 1:8"),
    }),
    verse: part(
      `x-x-x-x-8-8 x-x-x-x-8-8 x-x-x-x-10-10 x-x-x-x-10-10 x-x-x-x-10-10 x-x-x-x-8-10
       x-x-x-x-8-8 x-x-x-x-10-12 x-x-x-x-10-12 x-x-x-x-8-12 x-x-x-x-8-10`,
      "between",
      {
        2: fill(3, 5, "3 2:10  3.5 1:8  4 1:10"),
        6: fill(3, 5, "3 1:12  3.5 1:10  4 2:10"),
      },
    ),
    chorus: part(
      `x-x-x-x-11-13 x-x-x-x-12-13 x-x-x-x-13-13 x-x-x-14-15-x x-x-x-12-15-x x-x-x-12-13-x
       x-x-x-12-13-x x-x-x-10-13-x x-x-x-12-13-x x-x-x-12-15-x`,
      "offbeats",
    ),
    tag: part("x-x-x-12-15-x x-x-x-12-13-x x-x-x-x-8-8 x-x-x-x-8-8", undefined),
  },
  lower: {
    strums: {
      opening: pattern("Opening", eighth, "D.D....."),
      halves: pattern("One and three", eighth, "D...D..."),
      muted: pattern("Muted quarters", eighth, "D.D.D.D.", true),
      stop,
    },
    intro: part("x-x-3-2-4-x x-x-3-1-3-x x-x-3-4-3-x x-x-2-3-1-x", "opening"),
    verse: part(
      `x-x-3-2-4-x x-x-3-2-4-x x-x-4-5-3-x x-x-3-3-3-x x-x-3-3-3-x x-x-2-3-1-x
       x-x-3-2-4-x x-x-2-0-2-x x-x-3-2-1-x x-x-3-4-3-x x-x-2-3-1-x`,
      "halves",
      {
        4: fill(3.5, 5, "3.5 4:2  4 3:0  4.5 3:2"),
        8: fill(3, 5, "3 4:2  3.5 3:0  4 3:1"),
      },
    ),
    chorus: part(
      `x-x-3-1-3-x x-x-3-1-3-x x-x-3-2-4-x x-x-4-5-3-x x-x-3-4-3-x x-x-2-3-1-x
       x-x-3-2-4-x x-x-3-1-3-x x-x-3-2-4-x x-x-5-3-5-x`,
      "muted",
    ),
    tag: part("x-x-3-4-3-x x-x-2-3-1-x x-x-3-2-4-x x-x-3-2-4-x", undefined),
  },
};

function part(grips: string, strum: string | undefined, fills: Part["fills"] = {}): Part {
  return { grips, strum, fills };
}

function pattern(name: string, step: number, steps: string, palmMute = false): StrumPart {
  return { name, step, steps, palmMute };
}

function fill(from: number, to: number, notes: string): FillPart {
  return { from, to, notes, kind: "fill" };
}

function line(from: number, to: number, notes: string): FillPart {
  return { from, to, notes, kind: "line" };
}
