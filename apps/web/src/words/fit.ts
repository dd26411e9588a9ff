/** Words of the fit: what is asked, wished and answered. */
import type { LeaningName } from "@halflap/fitter/answer";
import type { CauseName } from "@halflap/fitter/weights";

/** A leaning's name, and what it comes to. */
export const leaningWords: Readonly<
  Record<LeaningName, { readonly name: string; readonly meaning: string }>
> = {
  plain: {
    name: "As it comes",
    meaning: "Little motion, easy grips, each out of the other’s way.",
  },
  "close together": {
    name: "Close together",
    meaning: "The two parts lie next to each other, like one big guitar.",
  },
  "more movement on top": {
    name: "More movement on top",
    meaning: "The high part’s top note moves from chord to chord, the rest holds still.",
  },
  "easy for the singer": {
    name: "Easy for the singer",
    meaning: "Whoever sings changes grips seldom, stays where the hand is and holds easy grips.",
  },
  "far apart": {
    name: "Far apart",
    meaning: "One part low, the other high, with room between them.",
  },
};

/** What a cost is for, as a row of the comparison says it. */
export const causeWords: Readonly<Record<CauseName, string>> = {
  motion: "Voices on the move",
  "hand shift": "Hand along the neck",
  comfort: "Hard to hold",
  "same register": "One in the other’s register",
  doubling: "The same notes twice",
  "missing note": "Thin, or a note missing",
  rub: "Rubs",
  "low and muddy": "Mud down low",
  colour: "Odd colours",
  "move with no time": "Moves with no time for them",
  "octaves together": "Octaves side by side",
  "under the voice": "Changes while singing",
  "not what was liked": "Not what was liked",
};

/** Everything else that the panel says. */
export const fitWords = {
  title: "Fit",
  close: "Close",
  intro: "Grips for the whole tune that link with little motion and stay out of each other’s way.",
  whose: "Whose part",
  of: (name: string) => `${name}’s`,
  mineAround: (other: string) => `Mine around ${other}`,
  aroundMine: (other: string) => capital(`${other} around mine`),
  around: (one: string, other: string) => capital(`${one} around ${other}`),
  both: "Both together",
  how: "How",
  leaning: "Leaning",
  howMany: "Answers",
  bars: "Which bars",
  wholeTune: "Whole tune",
  someSections: "Some sections",
  sections: (count: number) => (count === 1 ? "1 section" : `${count} sections`),
  nothingToFit: {
    "no section": "Pick a section, or take the whole tune.",
    "no bars": "There are no bars in what is picked: pick more, or take the whole tune.",
    "nothing free": "Nothing may change: the part is wished to stay as it is.",
  },
  start: "Fit",
  again: "Fit again",
  working: "Working it out…",
  percent: (done: number) => `${Math.round(done * 100)} %`,
  cancel: "Cancel",
  cancelled: "Stopped. Nothing was changed.",
  failed: (why: string) => `It broke off: ${why}. Nothing was changed; try again.`,
  notFetched: "what works it out could not be fetched from the server",
  stale: "The board or what you ask is another than when these were found.",
  answers: (count: number) => (count === 1 ? "One answer" : `${count} answers`),
  fewer: (asked: number) => `You asked for ${asked}; there are no more that differ enough.`,
  noAnswer: "There is nothing here to choose grips for.",
  skipped: (count: number) => (count === 1 ? "1 slot left alone" : `${count} slots left alone`),
  compare: "Side by side",
  unit: "In semitones of motion, through the whole form as it is played. Less is better.",
  compared: "What is compared",
  now: "Now",
  look: (number: number) => `Look at answer ${number} on the board`,
  altogether: "Altogether",
  moreCauses: (count: number) => (count === 1 ? "1 smaller cause" : `${count} smaller causes`),
  unknown: "not known: a slot has no grip",
  findings: "Findings left",
  none: "none",
  hardest: "Hardest bar",
  hardestIs: (words: string) => `Hardest: ${words}`,
  bar: (number: number) => `bar ${number}`,
  goTo: (number: number) => `Go to bar ${number}`,
  motion: "Semitones moved",
  differs: "Other grips",
  differsMeaning:
    "Other grips: how much of what is played has another grip than in the most similar of the " +
    "answers before; for the first, than now.",
  share: (part: number) => `${Math.round(part * 100)} %`,
  proven: "Proven best",
  isProven: "yes",
  notProven: (most: string) => `at most ${most} better is possible`,
  pickOne: "Press a number to see that answer on the board. Nothing is changed until you take it.",
  picked: (number: number) => `Answer ${number}`,
  onBoard: (count: number) =>
    count === 1
      ? "1 grip would change: dashed on the board, with what is held now under it."
      : `${count} grips would change: dashed on the board, with what is held now under them.`,
  putAway: "Put it away",
  same: "This is the board as it is: no grip would change.",
  hearNow: "Hear it now",
  hearThen: "Hear this answer",
  hearAlone: "Only the fitted part sounds",
  hearMine: "Hear it with my part only",
  hearBars: (section: string) => `Heard in: ${section}`,
  takeMine: "Take it into my part",
  takeBoth: (name: string) => `Take my part, offer ${name} the other`,
  takeBothFree: "Take my part, offer the other for its lane",
  offer: (name: string) => `Offer it to ${name}`,
  offerFree: (lane: string) => `Offer it for the ${lane} lane`,
  offerBoth: "Offer both parts",
  offerWords: (leaning: string, count: number, own: boolean) =>
    `A fit${own ? " of both parts" : ""}, ${leaning.toLowerCase()}: ` +
    (count === 1 ? "1 grip" : `${count} grips`),
  took: (grips: number, others: number) => {
    const more = others === 0 ? "" : others === 1 ? " and 1 other change" : ` and ${others} others`;
    const count = grips === 1 ? "1 new grip" : `${grips} new grips`;
    return `Your part has ${count}${more}. Undo takes it back.`;
  },
  offered: (whose: string) => `Offered for ${whose}: take it or leave it is up to its owner.`,
  tooMany: (most: number) => `${most} offers wait already: answer some of them first.`,
  tooMuch: (most: number) => `More than ${most} changes for one offer: fit some sections only.`,
  whole: "What grips can’t cure",
  wholeMeaning:
    "Strums that coincide, fills that collide: what else would have to change for no stop and " +
    "no fix to be left.",
  wholeAsk: "Look for it",
  wholeNothing: "Nothing more to mend: no stop and no fix is left.",
  wholeNoWay: "There is no single change that helps here.",
  wholeLeft: (count: number) =>
    count === 1 ? "1 stop or fix would be left." : `${count} stops and fixes would be left.`,
  wholeTake: "Take these along",
  gone: "This answer can’t be asked about any more. Fit again, and ask about the new ones.",
  why: "Why this one?",
  whyAt: (chord: string, bar: number) => `${chord} in bar ${bar}`,
  whyWhere: "Press a slot of the part that was fitted, and see what its next best grips cost.",
  whyFailed: (why: string) => `It broke off: ${why}. Close this part and open it to ask again.`,
  whyNone: "No other grip is left here under your wishes.",
  impossible: "These wishes can’t hold together",
  letGo: (wish: string) => `Let go of: ${wish}`,
  showPlace: "Show the place",
  theirWishes: (whose: string) => `They belong to ${whose}; only its owner lets go of one.`,
  readOnly: "You are listening in: look and hear, but nothing is taken.",
} as const;

function capital(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}

/** "4.5", "12": a cost to the tenth, without a needless nought. */
export function costNumber(cost: number): string {
  return String(Math.round(cost * 10) / 10);
}

/** "1 semitone", "2.5 semitones". */
export function semitones(count: number): string {
  const number = costNumber(count);
  return number === "1" ? "1 semitone" : `${number} semitones`;
}
