/** Words of what could be done about a finding. */

/** What is said about ways out. */
export const waysWords = {
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

function semitones(count: number): string {
  return count === 1 ? "1 semitone" : `${count} semitones`;
}
