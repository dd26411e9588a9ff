/** Passages that drive: chops, shuffles, riffs and stops. */
import type { Passage } from "./passage.ts";

/** One chops, one bubbles; then both chop, and nothing bubbles any more. */
const offBeats: Passage = {
  name: "reggae-like off-beats",
  chart: `Parking Lot Sunday
A minor, 74
| Am | G | F | Em |
| Am | G | F | E7 |`,
  upper: {
    grips: `x-x-x-9-10-8 | x-x-x-7-8-7 | x-x-x-10-10-8 | x-x-x-9-8-7 |
            x-x-x-9-10-8 | x-x-x-7-8-7 | x-x-x-10-10-8 | x-x-x-9-9-10`,
    strum: "..D...D.",
  },
  lower: {
    grips: `x-x-7-5-x-x | x-x-5-7-x-x | x-x-3-2-x-x | x-x-2-0-x-x |
            x-x-7-5-x-x | x-x-5-7-x-x | x-x-3-2-x-x | x-x-2-1-x-x`,
    strum: { "1-4": ".D.D.D.D", "5-8": "..D...D." },
    palmMutes: [1, 2, 3, 4, 5, 6, 7, 8],
  },
  expected: [
    ["R19 praise both 1-4", "one chops, the other bubbles between the chops"],
    ["R17 look lower 5", "up to the seventh fret although A minor lies under the fingers"],
    ["R18 fix both 5-8", "both chop, and nothing bubbles any more"],
  ],
};

/** Quarters against swung off-beats; in the second round the lower hand runs up the neck for E7. */
const shuffle: Passage = {
  name: "shuffle",
  chart: `Gravel Radio
D, 118, shuffle
| D6 | B7 | E7 | A7 |
| D6 | B7 | E7 | A7 |`,
  upper: {
    grips: `x-x-x-x-10-10 | x-x-x-x-7-7 | x-x-x-x-9-7 | x-x-x-x-10-12 |
            x-x-x-x-10-10 | x-x-x-x-7-7 | x-x-x-x-9-7 | x-x-x-x-10-12`,
    strum: ".U.U.U.U",
  },
  lower: {
    grips: `x-5-4-4-x-x | x-x-1-2-0-x | x-x-2-1-3-x | x-x-2-0-2-x |
            x-5-4-4-x-x | x-x-1-2-0-x | x-x-14-13-15-x | x-x-2-0-2-x`,
    strum: "D.D.D.D.",
  },
  expected: [
    ["R19 praise both 1-8", "quarters against swung off-beats"],
    ["R05 look both 3", "both have the G sharp that wants up to A"],
    ["R29 look lower 6-7", "thirteen frets up in one beat"],
    ["R01 fix both 7", "up there it stands right on the other's two notes"],
    ["R05 look both 7", "both have the G sharp again"],
    ["R17 look lower 7", "E7 lies where the hand was"],
    ["R17 look lower 8", "and all the way back down"],
  ],
};

/** Boom and chick; then the one swings while the other does not. */
const twoBeat: Passage = {
  name: "fast two-beat",
  chart: `Kettle Train
C, 150, 2/2, swing
| C | C | F | C |
| G7 | G7 | C | G7 |`,
  upper: {
    grips: `x-x-x-9-8-8 | % | x-x-x-10-10-8 | x-x-x-9-8-8 |
            x-x-x-10-8-7 | % | x-x-x-9-8-8 | x-x-x-x-8-10`,
    strum: { "1-4": ".D.D", "5-8": "...U...U" },
    feel: "straight",
  },
  lower: {
    grips: `x-x-2-0-1-x | % | x-x-3-2-1-x | x-x-2-0-1-x |
            x-x-3-4-3-x | % | x-x-2-0-1-x | x-x-3-4-3-x`,
    strum: { "1-4": "D.D.", "5-8": "D..UD..." },
  },
  expected: [
    ["R19 praise both 1-8", "boom and chick; later the upper answers on the last off-beat alone"],
    ["R15 look both 2-5", "both bass notes go E F E F together"],
    ["R05 look both 5", "both have the B that wants up to C"],
    [
      "R20 look both 5-8",
      "33 ms between a swung and a straight off-beat: it sounds like a mistake",
    ],
    ["R05 fix both 6", "and here both B go up to C at once"],
  ],
};

/** A riff an octave apart on purpose, then one guitar under a high drone. */
const powerChords: Passage = {
  name: "power-chord rock",
  chart: `Breaker Yard
E minor, 116
| E5 | G5 | A5 | C5 D5 |
| E5 | G5 | A | B5 |`,
  distorted: true,
  limits: { bassZone: 40 },
  aims: { "1-4": ["unison"] },
  upper: {
    grips: `x-7-9-9-x-x | x-10-12-12-x-x | x-12-14-14-x-x | x-15-17-17-x-x x-17-19-19-x-x |
            x-x-x-x-17-19 | x-x-x-x-15-19 | x-x-x-x-17-17 | x-x-x-x-19-19`,
    strum: { "1-4": "DDDDDDDD", "5-8": "D...D..." },
  },
  lower: {
    grips: `0-2-2-x-x-x | 3-5-5-x-x-x | x-0-2-2-x-x | x-3-5-5-x-x x-5-7-7-x-x |
            0-2-2-x-x-x | 3-5-5-x-x-x | 5-4-2-x-x-x | 7-9-9-x-x-x`,
    strum: { "1-7": "DDDDDDDD", "8": "DDDDDDDDDDDDDDDD" },
    palmMutes: [5, 6, 7, 8],
  },
  expected: [
    ["R18 look both 1-4", "a riff in unison is meant; whether each eighth needs both is taste"],
    [
      "R29 look lower 4-5",
      "from D5 at the fifth fret to the open E5 within an eighth, in another shape",
    ],
    ["R13 look upper 6", "the chart says G5, the B makes it G major: ask whether that is meant"],
    ["R08 look lower 7", "a major third on A2, through distortion"],
    ["R29 look lower 7-8", "five frets up into another shape within an eighth"],
    ["R22 stop lower 8", "sixteenths at 116, every one of them down: no arm does that"],
  ],
};

/** The same riff twice: the second time nobody has said that it is one. */
const unison: Passage = {
  name: "both in unison on purpose",
  chart: `Ladder Riff
E minor, 112
| E5 | G5 | A5 | G5 |
| E5 | G5 | A5 | G5 |
| E5 |`,
  aims: { "1-4": ["unison"] },
  upper: {
    grips: `x-7-9-x-x-x | x-10-12-x-x-x | x-12-14-x-x-x | x-10-12-x-x-x |
            x-7-9-x-x-x | x-10-12-x-x-x | x-12-14-x-x-x | x-10-12-x-x-x | x-x-x-x-12-12`,
    strum: "D..D.DD.",
  },
  lower: {
    grips: `x-7-9-x-x-x | x-10-12-x-x-x | x-12-14-x-x-x | x-10-12-x-x-x |
            x-7-9-x-x-x | x-10-12-x-x-x | x-12-14-x-x-x | x-10-12-x-x-x | x-7-9-x-x-x`,
    strum: "D..D.DD.",
  },
  expected: [
    [
      "R18 look both 1-4",
      "it is a riff, so neither shelf nor notes are a matter; the rhythm is taste",
    ],
    ["R01 fix both 5-8", "nobody said that this one is a riff: one shelf"],
    ["R03 fix both 5-8", "the very same notes"],
    ["R15 fix both 5-8", "all in parallel unison"],
    ["R18 fix both 5-9", "and every stroke struck by both"],
  ],
};

/** Two strokes a bar are few; two each carry. And the lower guitar forgets how loud it is. */
const halfTime: Passage = {
  name: "half-time",
  chart: `Slow Barge
A minor, 140
| Am | F | C | G |
| Am | F | C | G |`,
  upper: {
    grips: `x-x-x-x-10-8 | % | x-x-x-x-8-8 | x-x-x-x-8-10 |
            x-x-x-x-10-8 | % | x-x-x-x-8-8 | x-x-x-x-8-10`,
    strum: { "1-4": "....D...", "5-8": "....D.D." },
    dynamics: { "5-8": "mp" },
  },
  lower: {
    grips: `x-x-2-2-1-x | x-x-3-2-1-x | x-x-2-0-1-x | x-x-0-0-0-x |
            x-x-2-2-1-x | x-x-3-2-1-x | x-x-2-0-1-x | x-x-0-0-0-x`,
    strum: { "1-4": "D.......", "5-8": "D..D...." },
    dynamics: { "5-8": "ff" },
  },
  expected: [
    ["R19 look both 1-4", "two strokes a bar between two guitars: it could stop any moment"],
    ["R19 praise both 5-8", "two each, none together: now it rolls"],
    ["R33 look both 5-8", "very loud against rather soft"],
  ],
};

/** The band stops under the voice; in the gap after it both want to be heard. */
const stopTime: Passage = {
  name: "stop-time",
  chart: `Shut the Gate
G, 104
| G7 | G7 | C7 | D7 |`,
  aims: { "1-3": ["stop"] },
  upper: {
    grips: "x-x-x-x-8-10 | % | x-x-x-x-8-8 | x-x-x-x-10-10",
    strum: "D.......",
    fills: [[4, 1, 4, "1 1:10 2 1:8 3 2:10 4 2:7"]],
  },
  lower: {
    grips: "x-x-3-4-3-x | % | x-x-2-3-1-x | x-x-4-5-3-x",
    strum: "D.......",
    fills: [[4, 3, 2, "3 4:4 4 3:2"]],
  },
  singer: { type: "baritone" },
  sung: [
    [1, 1.5, 2.5],
    [2, 1.5, 2.5],
    [3, 1.5, 2.5],
  ],
  expected: [["R23 fix both 4", "the gap after the stops is one fill wide, and both take it"]],
};

/** All of them. */
export const drivingPassages: readonly Passage[] = [
  offBeats,
  shuffle,
  twoBeat,
  powerChords,
  unison,
  halfTime,
  stopTime,
];
