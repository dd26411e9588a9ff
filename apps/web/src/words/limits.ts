/** Words of the dialog in which a band says how strict the checker is. */

/** What each group of limits is about. */
export const limitGroupNames = {
  register: "Register",
  doubling: "Doubling",
  chord: "The chord",
  low: "Low down",
  rhythm: "Strumming together",
  fills: "Fills",
  voice: "Voice",
  hand: "Hands",
  whole: "The whole tune",
} as const;

export type LimitGroupName = keyof typeof limitGroupNames;

/** Everything else the dialog says. */
export const limitsWords = {
  title: "How strict the checker is",
  about:
    "These limits are for this board, and for both of you. Most are taste: no book settles them. " +
    "Where a figure is from stands beside it.",
  caution:
    "A higher limit does not make a stretch kinder or an arm faster. If something hurts, leave it.",
  own: (count: number) => (count === 1 ? "1 limit is your own" : `${count} limits are your own`),
  reset: "As it comes",
  resetNamed: (what: string) => `As it comes: ${what}`,
  resetAll: "All as they come",
  range: (least: number, most: number) => `${least} to ${most}`,
  comesWith: (value: number) => `comes with ${value}`,
  source: (source: string) => (source === "ours" ? "our own figure" : source),
} as const;
