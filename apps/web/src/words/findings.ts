/** Words of the findings panel and of the ways out. */
import type { Sign } from "../findings/reading-order.ts";

type SignWords = { readonly one: string; readonly many: string; readonly meaning: string };

export const severityWords: Readonly<Record<Sign, SignWords>> = {
  stop: { one: "stop", many: "stops", meaning: "will sound wrong" },
  fix: { one: "fix", many: "fixes", meaning: "change it before rehearsal" },
  look: { one: "look", many: "looks", meaning: "listen and decide together" },
  note: { one: "note", many: "notes", meaning: "good to know" },
  lock: { one: "lock", many: "locks", meaning: "here the parts close: keep it" },
};

/** Everything the panel says. */
export const findingsWords = {
  heading: "Findings",
  ways: "Ways out",
  asItIs: "They speak of the board as it is, not of the grips looked at: those have no marks yet.",
  picked: "Picked finding",
  checking: "Checking…",
  none: "Nothing sticks out.",
  noneYet: "Nothing to compare yet.",
  noneMore: "Where both lanes have grips, they lie flush.",
  emptyBoard: "Choose grips in both lanes, and whatever does not fit shows up here.",
  next: "Next finding",
  previous: "Previous finding",
  fewer: (count: number, since: string) => `${count} fewer than ${since}`,
  more: (count: number, since: string) => `${count} more than ${since}`,
  morning: "this morning",
  earlier: "earlier today",
  silence: "Live with it…",
  silenceLabel: "Why it may stay",
  silenceHint: "“The hook needs it”",
  silenceConfirm: "Keep it quiet",
  reasonMissing: "Write a reason, so that the other player knows.",
  cancel: "Cancel",
  silenced: (count: number) => `${count} you live with`,
  bringBack: "Bring back",
  details: "Details",
  rule: (id: string, name: string) => `${name} (rule ${id})`,
  measured: (value: string, from: string) => `${value}, flagged from ${from}`,
  sounds: (lane: string, notes: string) => `${lane}: ${notes}`,
  silent: "silent here",
  necks: (chord: string, bar: number) => `${chord} in bar ${bar}`,
  show: "Open the neck",
  bar: (number: number) => `Bar ${number}`,
  until: (bar: number) => `up to bar ${bar}`,
  settled: "Gone:",
  letGo: "Good",
} as const;

/** "2 fixes", "1 stop". */
export function severityCount(sign: Sign, count: number): string {
  const words = severityWords[sign];
  return `${count} ${count === 1 ? words.one : words.many}`;
}
