/** Whether a link still opens the board, and until when. */
import type { LinkCard } from "@halflap/wire/api";
import { shareWords } from "../words/share.ts";

/** Not revoked, not used up, not expired. */
export function isLive(link: LinkCard, now: Date): boolean {
  return !link.revoked && link.usesLeft > 0 && new Date(link.expiresAt) > now;
}

/** "10 uses left, until 9 December", or why it opens nothing any more. */
export function termWords(link: LinkCard, now: Date, language?: string): string {
  if (link.revoked) return shareWords.revoked;
  if (link.usesLeft <= 0) return shareWords.usedUp;
  const end = new Date(link.expiresAt);
  if (end <= now) return shareWords.expired;
  const date = end.toLocaleDateString(language, { day: "numeric", month: "long" });
  return `${shareWords.usesLeft(link.usesLeft)}, ${shareWords.until(date)}`;
}
