/** Words about saving, the line to the server, and refusals. */
import type { UpdateRefusal } from "@halflap/wire/messages";

export const sessionWords = {
  serverAway: "The server does not answer. Look at the network, then try again.",
  serverFailed: "Something went wrong on the server. Try again in a moment.",
  closedNotMember:
    "You are not on this board, or not any more. Ask its leader for a link. What this browser has" +
    " of it can be taken away as a copy.",
  newer:
    "Somebody works on this board with a newer Halflap. Some of what they do may not show here; " +
    "it is kept all the same. Reload to get the newer one.",
  reload: "Reload",
  noEntry: "Either there is no such board, or you are not on it. Ask its leader for a link.",
  restored: "This board was restored from a backup, and may lack what was done since.",
  closedOther:
    "The server closed the line. Reload the page to try again; what this browser has stays here.",
} as const;

const places = {
  board: "to the chart",
  "lane-upper": "to the upper lane",
  "lane-lower": "to the lower lane",
  talk: "here",
} as const;

const reasons: Readonly<Record<UpdateRefusal, string>> = {
  "not-yours": "it is not yours to change",
  malformed: "the server could not read it",
  "too-large": "it was too much at once",
  "too-fast": "it came too fast",
  "foreign-client": "it was made here by another member",
  "document-full": "there is no more room in it",
  "board-full": "there is no more room on the board",
  "store-full": "the server’s disk is full",
  "others-first": "what others did comes before it",
};

/** Says what was not taken, and why. */
export function refusedWords(document: keyof typeof places, refusal: UpdateRefusal): string {
  return `A change ${places[document]} was not taken: ${reasons[refusal]}.`;
}

/** Says that a change came while its document was being left for the server's. */
export function lateWords(document: keyof typeof places): string {
  return `A change ${places[document]} came while the board was loading again, and was not taken.`;
}
