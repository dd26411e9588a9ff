/** How much a practice file may hold. */

/** As CDs have it: every player opens it. */
export const wavSampleRate = 44_100;
/** A file of 15 minutes is 160 MB, and needs three times as much while it is made. */
export const fileMinutesMax = 15;
/** Times that what goes round is written. */
export const fileRoundsMax = 50;
/** Opus counts in these, whatever it was given (RFC 7845). */
export const opusSampleRate = 48_000;
