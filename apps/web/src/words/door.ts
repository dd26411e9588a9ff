/** Words of the door: boards, a new board, and coming in by a link. */

export const doorWords = {
  title: "Two guitar parts that fit.",
  lead:
    "Write the chords once. Each guitarist works on one lane, and the seam between the lanes " +
    "shows, bar by bar, where you sit on each other and what would let both lie flush.",
  demoDraft: "Try it on a tune",
  demoFitted: "See it fitted",
  demoHint: "“Paper Ferry Home”, 32 bars of our own. The copy is yours, no account.",
  making: "Making the board…",
  defaultName: "First guitar",
  boards: "Your boards",
  boardsOffline: "The server does not answer; these are the boards this browser keeps.",
  role: (role: string) => `as ${role}`,
  remove: "Delete",
  removeSure: (title: string) => `Really delete “${title}” for everybody?`,
  edited: (when: string) => `changed ${when}`,
  newBoard: "A new board",
  chartLabel: "The chart, as you would write it in a message",
  example: "Start from an example",
  exampleText: `Bb, 126, swing

Intro
| Bb6 | G7 | Cm7 | F7 |

Verse
| Bb6 | D7 | Gm7 . C7 . | % |
| Eb6 | Edim7 | Bb/F | F7 |
`,
  how: "How to write it",
  howLines: [
    "A first line may be the title; the next says key, tempo, meter and feel: F, 104, 4/4, " +
      "straight",
    "A line without bar lines names a section: Verse",
    "Chords stand between bar lines, and a dot holds for a beat: | Gm7 . C7 . |",
    "% plays the same bar again; N.C. is no chord",
    "Solo = Verse borrows the chords of another section",
    "Form: Intro, Verse, Chorus x2 says the order of play",
  ],
  counted: (sections: number, bars: number) =>
    `${sections === 1 ? "1 section" : `${sections} sections`}, ` +
    `${bars === 1 ? "1 bar" : `${bars} bars`}`,
  kept: "What you type stays in this browser until the board is made.",
  problems: (count: number) => (count === 1 ? "One thing to fix" : `${count} things to fix`),
  more: (count: number) => `and ${count} more further down`,
  place: (line: number, column: number) => `Line ${line}, column ${column}`,
  use: (meant: string) => `Use ${meant}`,
  yourName: "Your name, as the others will see it",
  nameMissing: "Write your name first, so that the others know whose part it is.",
  make: "Make the board",
  openCopy: "Open a copy or a text file",
  dropHere: "Drop the file here",
  copyRead: (title: string) => `The copy of “${title}” is ready to become a board.`,
  backToText: "Write a chart instead",
  draftKept: "What was written here before the file came is kept.",
  bringBackDraft: "Change back to it",
  wrongFile: (name: string) =>
    `“${name}” is neither a board’s copy (.json) nor a chart as plain text (.txt). ` +
    "Take a copy from a board’s menu, or paste the chords above.",
  brokenCopy: (name: string, path: string, words: string) =>
    `“${name}” is not a copy that can be opened: ${path === "" ? "" : `${path}: `}${words}`,
  notJson: (name: string) =>
    `“${name}” ends in .json but can’t be read as such. It may be cut off; take the copy again.`,
  tooLarge: (name: string) => `“${name}” is larger than a board can be (5 MB).`,
} as const;

/** Words for whoever comes by a link. */
export const joinWords = {
  title: "Come in.",
  lead: "Somebody invites you to their board. All it takes is a name.",
  join: "Come in",
  joining: "Opening the door…",
  incomplete:
    "This link is not complete: its end, after the #, is missing. Copy the whole link again, or " +
    "ask for a new one.",
} as const;
