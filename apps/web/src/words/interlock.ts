/** Words of the strum patterns that lock with the other part's. */

/** Everything the block in the playing panel says. */
export const interlockWords = {
  heading: (whose: string) => `Locks with ${whose} strums`,
  your: "your",
  of: (name: string) => `${name}’s`,
  ofLane: (lane: string) => `the ${lane} lane’s`,
  hint: (section: string) =>
    `Rhythms that answer what is struck over there. A press sets one for ${section}.`,
  hintRead: "Rhythms that answer what is struck on the other side.",
  keepsOwn: "This bar has a pattern of its own and keeps it.",
  working: "Trying rhythms against the other part…",
  none:
    "Nothing to offer: these bars rest or keep patterns of their own, or whatever would lock " +
    "makes trouble elsewhere.",
  failed: "This could not be loaded. Close it and open it again when the server is in reach.",
  taken: (name: string, section: string) => `${name} plays in ${section} now.`,
  offer: (name: string, section: string) => `Strum ${section}: ${name}`,
  offerNamed: (button: string, name: string) => `${button}: ${name}`,
  list: "Rhythms that lock",
} as const;
