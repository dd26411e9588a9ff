/** Words of the board: chart, lanes, form and keys. */
import type { LaneId } from "@halflap/board/board";
import type { KeyName } from "../board/keys.ts";

export const boardWords = {
  chart: "Chart",
  lanes: { upper: "Upper lane", lower: "Lower lane" } satisfies Record<LaneId, string>,
  lanesShort: { upper: "upper", lower: "lower" } satisfies Record<LaneId, string>,
  yours: "Your part",
  yourPart: "your part",
  theLane: (lane: string) => `the ${lane} lane`,
  partOf: (name: string) => `${name}’s part`,
  free: "Free lane",
  capo: (fret: number) => `capo ${fret}`,
  isFree: (lane: string) => `${lane} is free.`,
  claim: "Claim",
  claimLane: (lane: string) => `Claim the ${lane} lane`,
  claiming: "Claiming…",
  chords: "Chords",
  seam: "Seam",
  bar: (number: number) => `Bar ${number}`,
  unread: "not a chord that can be read",
  noGrip: "no grip yet",
  choose: "grip",
  laysOut: "lays out",
  here: (names: string) => `${names} is here`,
  form: "Form",
  times: (times: number) => (times === 1 ? "" : `× ${times}`),
  bars: (count: number) => (count === 1 ? "1 bar" : `${count} bars`),
  editForm: "Change the form",
  editingForm: "The form: what is played in which order",
  formAdd: "Add to the form",
  formTimes: "times",
  formEmpty: "No form yet. Add the sections in the order in which they are played.",
  earlier: "Earlier",
  later: "Later",
  moveEarlier: (what: string) => `Move ${what} earlier`,
  moveLater: (what: string) => `Move ${what} later`,
  remove: "Remove",
  removeNamed: (what: string) => `Remove ${what}`,
  cancel: "Cancel",
  add: "Add",
  addBar: "Add a bar",
  addBarAfter: "Bar after",
  addSection: "Add a section",
  sectionName: "Name of the section",
  newSection: "Bridge",
  change: "Change",
  sectionMenu: (name: string) => `Change ${name}`,
  borrows: (name: string) => `chords of ${name}`,
  emptySection: "No bars yet.",
  writeBar: (number: number) => `Chords of bar ${number}`,
  writeHint: "One chord a beat; a dot holds: Gm7 . C7 .",
  keep: "Keep",
  emptyBoard: "This chart is still blank.",
  emptyBoardHint: "Add a section, then write chords into its bars: Gm7 . C7 .",
  emptyBoardReader: "The players have not written any chords yet.",
  setAside: "Set aside",
  setAsideHint: "Removed bars wait here with their grips.",
  bringBackBar: (number: number, section: string) =>
    section === ""
      ? `Bring back bar ${number}`
      : `Bring back bar ${number}, at the end of ${section}`,
  nothingWritten: "no chords",
  keys: "Keys",
  help: "Reading and keys",
  close: "Close",
  changed: (name: string, where: string) => `${name} changed ${where}`,
  someone: "Someone",
  severalBars: (count: number) => `${count} bars`,
  listening: "You are listening in: you see everything and change nothing.",
} as const;

/** What each key of the board does, for the Keys dialog. */
export const keyWords: Readonly<Record<KeyName, string>> = {
  walk: "Walk through slots and lanes",
  line: "Start or end of the line",
  board: "Start or end of the board",
  open: "Open the neck, or write the chords of a bar",
  close: "Close what is open",
  type: "Type a grip",
  clear: "Clear the grip",
  "lay-out": "Lay out in this bar, or play again",
  "next-finding": "Next finding",
  "previous-finding": "Previous finding",
  "show-keys": "This list",
};

/** How keys are written in the dialog. */
export const keyNames: Readonly<Record<string, string>> = {
  ArrowLeft: "←",
  ArrowRight: "→",
  ArrowUp: "↑",
  ArrowDown: "↓",
  Escape: "Esc",
};

/** Keys that the neck and the whole page listen to. */
export const otherKeys: readonly { readonly keys: readonly string[]; readonly does: string }[] = [
  { keys: ["←", "→"], does: "On the neck: move a string’s fret" },
  { keys: ["↑", "↓"], does: "On the neck: next string" },
  { keys: ["0 … 9", "x"], does: "On the neck: set or silence a string" },
  { keys: ["Ctrl+Z"], does: "Undo your own last change" },
  { keys: ["Shift+Ctrl+Z"], does: "Redo it" },
];
