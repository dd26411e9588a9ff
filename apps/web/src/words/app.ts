/** Words of the frame around every page: the bar on top, the state line, copies and colours. */
import type { Feel, LaneId, Role } from "@halflap/board/board";

export const roleWords: Readonly<Record<Role, string>> = {
  leader: "leader",
  player: "player",
  listener: "listener",
};

/** What each lane is called. */
export const laneWords: Readonly<Record<LaneId, string>> = {
  upper: "Upper lane",
  lower: "Lower lane",
};

/** What each feel is called. */
export const feelWords: Readonly<Record<Feel, string>> = {
  straight: "straight",
  swing: "swing",
  shuffle: "shuffle",
};

/** Words of the frame itself. */
export const appWords = {
  name: "Halflap",
  toDoor: "All boards",
  backToDoor: "To the door",
  leaveUnsaved: "Your last changes are not saved yet, and not kept here. Leave and lose them?",
  untitled: "Untitled",
  boardTitle: "Title",
  editTitle: "Change the title",
  settings: "Key, meter, tempo and feel",
  key: "Key",
  keyHint: "F, Bb minor, C# major",
  keyProblem: (read: string, meant: string | undefined) =>
    meant === undefined
      ? `“${read}” is no key I know. Write it like F or Bb minor.`
      : `“${read}” is no key I know. Did you mean ${meant}?`,
  meter: "Meter",
  meterHint: "4/4, 3/4, 6/8",
  meterProblem: (read: string) =>
    `“${read}” is no meter I know. Write it like 3/4, over 2, 4, 8 or 16.`,
  tempo: "Tempo, beats a minute",
  feel: "Feel",
  bass: "Somebody plays bass, so roots may be left out",
  countIn: "Count-in, bars",
  ending: "How it ends",
  endingHint: "Stop on 1, let it ring",
  blueNotes: "Minor against major thirds are our style, as in a blues",
  distorted: "The guitars are heavily distorted",
  undo: "Undo my last change",
  redo: "Do it again",
  share: "Share",
  menu: "More",
  close: "Close",
  done: "Done",
  copied: "Copied",
  copy: "Copy",
  copyFailed: "This browser does not let pages copy. Select the text and copy it yourself.",
  chartText: "Chart as text",
  chartTextHint: "Only the chords. Paste it into a message, or on the door to start another board.",
  takeCopy: "Take a copy of the board",
  theme: "Colours",
  themes: { system: "As the system", light: "Light", dark: "Dark" },
  opening: "Opening the board…",
  failedTitle: "The page stumbled.",
  failedHint: "What you changed is kept in this browser. Load the page again to go on.",
  reload: "Load again",
  nowhereTitle: "There is nothing here.",
  nowhereHint: "The address may have lost a piece on its way to you.",
  noEntryTitle: "This door is closed.",
  awayTitle: "The server is away.",
  tryAgain: "Try again",
  missedLabel: "About what is missing",
  missed:
    "Part of the page could not be fetched. The board goes on working without it; once the " +
    "network is back, try again.",
  stillMissed:
    "The server is still out of reach. The board goes on working; what you do stays in this " +
    "browser. Try again once the network is back.",
  presence: "Here now",
} as const;

/** Words of the state line and of what has to be said about saving. */
export const stateWords = {
  label: "About saving",
  opening: "opening",
  saved: "saved",
  sending: "sending",
  offline: (changes: number, isKept: boolean) => `offline${waiting(changes, isKept)}`,
  storeFull: (changes: number, isKept: boolean) => `server full${waiting(changes, isKept)}`,
  unreadable: (changes: number, isKept: boolean) =>
    `server can’t read it${waiting(changes, isKept)}`,
  refused: "a change was refused",
  closed: "closed",
  storeFullHint:
    "The server’s disk is full. You can go on working: changes stay in this browser and are " +
    "offered again until there is room.",
  unreadableHint:
    "The server can’t read part of this board. Tell whoever keeps the server; nothing was thrown " +
    "away. What you do stays in this browser and is offered again once it can.",
  refusedHint:
    "The board shows what everybody agreed on. Your version is in the copy, with everything as " +
    "you had it.",
  notKeptHint:
    "This browser has no room or no right to keep the board. Stay online until the state says " +
    "saved, or take a copy.",
  lacksWork:
    "This browser can’t read all that it kept of this board any more: look over your last " +
    "changes, and make again what is missing.",
  takeCopy: "Take my copy",
} as const;

/** What to try on a demo board. */
export const hintWords = {
  draft:
    "Start with bar 9, where somebody forgot the capo: its finding shows both grips and some " +
    "ways out. The upper lane is yours, so do one and see what is left.",
  fitted:
    "Here the same tune is fitted. Walk through the bars and see how little each hand moves; the " +
    "upper lane is yours to change.",
  label: "What to try",
  dismiss: "Got it",
} as const;

function waiting(changes: number, isKept: boolean): string {
  if (changes === 0) return "";
  return `, ${counted(changes)} ${isKept ? "kept here" : "in this page only"}`;
}

function counted(changes: number): string {
  return changes === 1 ? "1 change" : `${changes} changes`;
}
