/** Words of what one player offers the other. */

/** Everything said about proposals. */
export const proposalWords = {
  heading: "Offers",
  offers: (who: string, whose: string) => `${who} offers for ${whose}`,
  youOffer: (whose: string) => `You offered for ${whose}`,
  someone: "Somebody",
  take: "Take",
  takeThis: (what: string) => `Take: ${what}`,
  leave: "Leave",
  leaveThis: (what: string) => `Leave: ${what}`,
  takeBack: "Take back",
  takeBackThis: (what: string) => `Take back: ${what}`,
  waiting: "Not answered yet.",
  gone: "The bars that it is about are gone.",
  partlyGone: "Some of what it is about is gone; the rest can still be taken.",
  otherChord: "The chord is another now than the one it was offered for.",
  already: "The part is like this already.",
  sign: (who: string, bar: number) => `${who} offers a change in bar ${bar}`,
} as const;
