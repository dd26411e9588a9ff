/** Passages played quietly: where two parts leave each other, and the voice, their room. */
import type { Passage } from "./passage.ts";

/** A ballad in three: one has the one, the other two and three, and the gaps are the upper's. */
const ballad: Passage = {
  name: "ballad in 3/4",
  chart: `Lantern on the Stairs
G, 84, 3/4
| G | Em7 | Cmaj7 | D7 |
| G | Bm7 | Am7 | D7 |`,
  upper: {
    grips: `x-x-x-x-8-10 | x-x-x-x-8-7 | x-x-x-x-8-10 | x-x-x-x-10-10 |
            x-x-x-x-8-10 | x-x-x-x-10-10 | x-x-x-x-8-8 | x-x-x-x-10-10`,
    strum: "..D.D.",
    fills: [[4, 2, 2, "2 2:10 2.5 1:8 3 1:10"]],
  },
  lower: {
    grips: `x-x-5-4-3-x | x-x-2-0-3-x | x-x-2-0-0-x | x-x-4-5-3-x |
            x-x-5-4-3-x | x-x-4-4-3-x | x-x-5-5-5-x | x-x-4-5-3-x`,
    strum: "D.....",
    fills: [[6, 2, 2, "2 4:4 2.5 3:4 3 2:3"]],
  },
  singer: { type: "alto" },
  sung: [
    [1, 1, 9],
    [5, 1, 9],
  ],
  expected: [
    ["R19 praise both 1-3", "one has the one, the other the two and three: a waltz"],
    ["R19 praise both 5", "the same again"],
    ["R04 look both 6", "both end on D, the third of B minor: one could take the B"],
    ["R24 fix lower 6", "a fill in the middle of the singer's line"],
    [
      "R19 praise both 7-8",
      "the same again; the upper's fill in bar 4 lies in a gap and is no trouble",
    ],
  ],
};

/** Triplets over a slow four: a fill under a held note can be liked, so it is only looked at. */
const slowTwelve: Passage = {
  name: "slow 12/8",
  chart: `Harbour Lights Out
D minor, 54, 12/8
| Dm7 | Gm7 | Bbmaj7 | A7 |`,
  upper: {
    grips: "x-x-x-x-10-10 | x-x-x-x-11-10 | x-x-x-x-11-13 | x-x-x-x-10-12",
    strum: "..D..D..D..D",
    fills: [[1, 3, 2, "3 1:10 3.5 1:8 4 2:10"]],
  },
  lower: {
    grips: "x-x-3-2-1-x | x-x-3-3-3-x | x-x-3-2-3-x | x-x-2-0-2-x",
    strum: "D.....D.....",
  },
  singer: { type: "tenor" },
  sung: [[1, 1, 4, "1 A3 2 C4 3 D4"]],
  expected: [
    ["R24 look upper 1", "the voice only holds D there: a small fill can be liked"],
    ["R19 praise both 1-4", "one has the first and third beat, the other the last third of each"],
  ],
};

/** Two lines and no strumming: what rubs is one long note against another. */
const fingerpicked: Passage = {
  name: "fingerpicked",
  chart: `Orchard Wall
D, 92, no bass
| D | A/C# | Bm7 | G |`,
  upper: {
    grips: "- - - -",
    lines: [
      [1, 1, 4, "1 1:10 2 1:9 3 1:5"],
      [2, 1, 4, "1 1:10/4"],
      [3, 1, 4, "1 1:10 2 1:9 3 1:7"],
      [4, 1, 4, "1 1:7 3 1:3"],
    ],
  },
  lower: {
    grips: "- - - -",
    lines: [
      [1, 1, 4, "1 4:0 1.5 3:2 2 2:3 2.5 3:2 3 4:0 3.5 3:2 4 2:3 4.5 3:2"],
      [2, 1, 4, "1 5:4 2 3:2 3 2:2"],
      [3, 1, 4, "1 5:2 1.5 3:2 2 2:3 2.5 3:2 3 5:2 3.5 3:2 4 2:3 4.5 3:2"],
      [4, 1, 4, "1 6:3 1.5 3:0 2 2:0 2.5 3:0 3 6:3 3.5 3:0 4 2:0 4.5 3:0"],
    ],
  },
  expected: [
    ["R10 fix both 2", "D on top for a whole bar, and C sharp held under it for two beats"],
  ],
};

/** No bass player: the lower guitar may go down, and its open low third is no more than a note. */
const duo: Passage = {
  name: "a duo without bass",
  chart: `Two Chairs
C, 88, no bass
| C | Am | F | G7 | C |`,
  upper: {
    grips: "x-x-x-9-8-8 | x-x-x-9-10-8 | x-x-x-10-10-8 | x-x-x-x-8-10 | x-3-2-0-1-0",
    strum: "D.......",
  },
  lower: {
    grips: "x-3-2-0-1-x | x-0-2-2-1-x | 1-3-3-2-x-x | 3-2-0-0-0-1 | x-3-2-0-1-x",
    strum: "D.DUD.DU",
  },
  expected: [["R03 fix both 5", "at the end both fall back into the same open C"]],
};

/** Off the beat against off the beat, but never the same one; later the ninths disagree. */
const bossa: Passage = {
  name: "bossa-like",
  chart: `Wet Paving
C, 126
| Dm9 | G13 | Cmaj7 | A7b9 |
| Dm9 | G13 | Cmaj7 | Cmaj7 |`,
  upper: {
    grips: `x-x-x-x-10-10 | % | x-x-x-x-8-10 | x-x-x-x-11-12 |
            x-x-x-x-10-10 | x-x-x-x-9-10 | x-x-x-x-8-10 | %`,
    strum: ".U..U..U",
  },
  lower: {
    grips: `x-5-3-5-5-x | x-x-3-4-5-x | x-x-5-4-5-x | x-x-5-6-5-x |
            x-5-3-5-5-x | x-x-3-2-0-x | x-x-5-4-5-x | %`,
    strum: "D..D..D.",
  },
  expected: [
    ["R19 praise both 1-8", "three and three against the holes of three and three"],
    ["R06 fix both 6", "A natural below, A flat above: agree on one ninth"],
    ["R17 look lower 6", "the hand lay right for G13 in bar 2 and now goes elsewhere"],
  ],
};

/** All of them. */
export const quietPassages: readonly Passage[] = [ballad, slowTwelve, fingerpicked, duo, bossa];
