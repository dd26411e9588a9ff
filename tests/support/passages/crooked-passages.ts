/** Passages out of the ordinary: other tunings, capos, five to a bar. */
import type { Passage } from "./passage.ts";

/** The low string a tone down carries the duo; one grip is fingered as if it were not. */
const dropD: Passage = {
  name: "drop D",
  chart: `Millrace
D, 100, no bass
| D5 | Bb | C | D |
| D5 | Bb | C | D |`,
  upper: {
    grips: `x-x-x-7-10-x | x-x-x-7-6-x | x-x-x-9-8-x | x-x-x-11-10-x |
            x-x-x-7-10-x | x-x-x-7-6-x | x-x-x-9-8-x | x-x-x-11-10-x`,
    strum: "..U..U.U",
  },
  lower: {
    tuning: [38, 45, 50, 55, 59, 64],
    grips: `0-0-0-x-x-x | 8-8-8-x-x-x | 10-10-10-x-x-x | 0-0-0-2-x-x |
            0-0-0-x-x-x | 8-8-8-x-x-x | 8-10-10-x-x-x | 0-0-0-2-x-x`,
    strum: "D..D..D.",
  },
  expected: [
    ["R19 praise both 1-8", "three and three and two, and the answer in the holes"],
    ["R08 look lower 7", "a B flat just above the C that the ear supplies"],
    ["R13 look lower 7", "fingered as if the low string were an E: B flat in a C chord"],
  ],
};

/** G shapes behind the second fret, D shapes behind the seventh; one is read without its capo. */
const twoCapos: Passage = {
  name: "two capos",
  chart: `Cold Spring Porch
A, 96
| A | E | F#m | D |
| A | E | F#m | D |`,
  upper: {
    capo: 7,
    grips: `x-x-x-2-3-2 | x-x-x-2-2-0 | x-x-x-4-3-2 | x-x-x-0-0-3 |
            x-x-x-2-3-2 | x-x-x-2-2-0 | x-x-x-2-2-2 | x-x-x-0-0-3`,
    strum: "..DU.U.U",
  },
  lower: {
    capo: 2,
    grips: `3-x-0-0-x-x | x-x-0-2-3-x | x-2-2-0-x-x | x-x-2-0-1-x |
            3-x-0-0-x-x | x-x-0-2-3-x | x-2-2-0-x-x | x-x-2-0-1-x`,
    strum: "D...D.D.",
  },
  expected: [
    ["R19 praise both 1-8", "on the beat low, between the beats high"],
    [
      "R14 stop upper 7",
      "F sharp minor as it looks without a capo: behind the seventh it is C sharp minor",
    ],
  ],
};

/** Three, three and four eighths: first between each other, then all the same. */
const fiveFour: Passage = {
  name: "5/4",
  chart: `Crooked Table
E minor, 120, 5/4
| Em7 | Em7 | Am7 | Bm7 |`,
  upper: {
    grips: "x-x-x-x-8-7 | % | x-x-x-x-10-8 | x-x-x-x-12-10",
    strum: { "1-2": ".U...U...U", "3-4": "D..D..D.D." },
  },
  lower: {
    grips: "x-x-2-0-3-x | % | x-x-2-0-1-x | x-x-4-2-3-x",
    strum: "D..D..D.D.",
  },
  expected: [
    ["R19 praise both 1-2", "each in the holes of the other, five to the bar"],
    ["R18 fix both 3-4", "then both count it the same way"],
    ["R04 look both 3", "both have C on top, the third"],
    ["R04 look both 4", "both have D on top, the third"],
  ],
};

/** Open strings told to ring on, into a chord that has no use for them. */
const ringing: Passage = {
  name: "open strings let ring",
  chart: `Open Sky
E, 80
| E | G#m | A | F#m7 |
| E | G#m | A | B7 |`,
  upper: {
    grips: `x-x-x-x-12-12 | x-x-x-x-12-11 | x-x-x-x-10-9 | % |
            x-x-x-x-12-12 | x-x-x-x-12-11 | x-x-x-x-10-9 | x-x-x-x-10-11`,
    strum: "..U...U.",
  },
  lower: {
    grips: `x-x-2-1-0-0 | x-x-6-4-4-x | x-0-2-2-2-0 | x-x-4-2-2-0 |
            x-x-2-1-0-0 | x-x-6-4-4-x | x-0-2-2-2-0 | x-2-1-2-0-2`,
    strum: "D...D...",
    letRings: [5],
  },
  expected: [
    ["R19 praise both 1-8", "one on one and three, the other before two and four"],
    ["R32 look lower 1-2", "the open E goes on over G sharp minor, a semitone above its fifth"],
    ["R32 fix lower 5-6", "and here it is even told to ring"],
    ["R09 look lower 8", "B2 and D sharp 3 are the bass player's"],
  ],
};

/** The one who sings strums on: too much for the hand, and right where the voice is. */
const singing: Passage = {
  name: "strumming under one's own voice",
  chart: `Kitchen Window
G, 100
| G | C | G | D |`,
  upper: {
    grips: "x-x-x-x-15-15 | x-x-x-x-13-15 | x-x-x-x-15-15 | x-x-x-x-15-17",
    strum: "..D...D.",
  },
  lower: {
    grips: "x-x-0-0-0-3 | x-x-2-0-1-0 | x-x-0-0-0-3 | x-x-0-2-3-2",
    strum: "DUDUDUDU",
  },
  singer: { type: "tenor", lane: "lower" },
  sung: [
    [1, 1, 6],
    [3, 1, 6],
  ],
  expected: [
    ["R27 look lower 1-4", "every eighth, right where the tenor sings"],
    ["R28 look lower 1-4", "two strokes a beat are much for somebody who sings"],
  ],
};

/** All of them. */
export const crookedPassages: readonly Passage[] = [dropD, twoCapos, fiveFour, ringing, singing];
