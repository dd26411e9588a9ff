/** Words of the findings panel and of the ways out. */
import type { RuleId } from "@halflap/checker/finding";
import type { Sign } from "../findings/reading-order.ts";

type SignWords = { readonly one: string; readonly many: string; readonly meaning: string };

export const severityWords: Readonly<Record<Sign, SignWords>> = {
  stop: { one: "stop", many: "stops", meaning: "will sound wrong" },
  fix: { one: "fix", many: "fixes", meaning: "change it before rehearsal" },
  look: { one: "look", many: "looks", meaning: "listen and decide together" },
  note: { one: "note", many: "notes", meaning: "good to know" },
  lock: { one: "lock", many: "locks", meaning: "here the parts close: keep it" },
};

/** What each rule looks at, as it is said in a rehearsal. */
export const ruleNames: Readonly<Record<RuleId, string>> = {
  R01: "Both in one register",
  R02: "The same notes in both parts",
  R03: "Both sound alike",
  R04: "A guide tone in octaves",
  R05: "The leading tone twice",
  R06: "The same colour twice, or two that clash",
  R07: "Nobody plays the 3rd or the 7th",
  R08: "Mud: close intervals down low",
  R09: "Low notes beside the bass",
  R10: "A rub between the parts",
  R11: "The 4th against the 3rd",
  R12: "The roughest sounds of the tune",
  R13: "A grip that is another chord",
  R14: "A capo that was forgotten",
  R15: "Parts that move in parallel",
  R16: "Parts that cross",
  R17: "A jump where a step would do",
  R18: "The same strum in both parts",
  R19: "Strums that lock, or leave holes",
  R20: "Strokes that nearly meet",
  R21: "Both busy at once",
  R22: "How fast the arm can strum",
  R23: "Both fill at once",
  R24: "A fill over the voice",
  R25: "Gaps that nobody fills",
  R26: "A fill that ends late",
  R27: "Guitars in the voice’s range",
  R28: "Busy while singing",
  R29: "Moves that the hand can’t make in time",
  R30: "Grips that can’t be held",
  R31: "Squeaking shifts",
  R32: "Open strings that ring on",
  R33: "Loudness that differs",
  R34: "Holes in the form",
  R36: "Grips chosen for another chord",
};

/** Everything the panel says. */
export const findingsWords = {
  heading: "Findings",
  picked: "Picked finding",
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

/** What is said about ways out. */
export const waysWords = {
  heading: "Ways out",
  working: "Working out what would help…",
  none: "No single change makes this better. Try something on the neck, or live with it.",
  removes: "Takes away",
  causes: "Brings",
  removesNothing: "It gets milder.",
  doIt: "Do it",
  doThis: (what: string) => `Do it: ${what}`,
  offerTo: (name: string) => `Offer it to ${name}`,
  offerToLane: (lane: string) => `Offer it for the ${lane} lane`,
  offered: (name: string) => `Offered to ${name}`,
  offeredToLane: (lane: string) => `Offered for the ${lane} lane`,
  tooMany: (most: number) => `${most} offers wait already: answer some of them first.`,
  tooMuch: (most: number) => `More than ${most} changes at once: talk this one over.`,
  more: (count: number) => (count === 1 ? "1 more way" : `${count} more ways`),
  further: (count: number) => `${semitones(count)} more to move`,
  nearer: (count: number) => `${semitones(count)} less to move`,
  asFar: "no further to move",
  comfort: {
    "much-easier": "easier to hold",
    easier: "a little easier to hold",
    same: "as easy to hold",
    harder: "a little harder to hold",
    "much-harder": "harder to hold",
  },
} as const;

/** "2 fixes", "1 stop". */
export function severityCount(sign: Sign, count: number): string {
  const words = severityWords[sign];
  return `${count} ${count === 1 ? words.one : words.many}`;
}

function semitones(count: number): string {
  return count === 1 ? "1 semitone" : `${count} semitones`;
}
