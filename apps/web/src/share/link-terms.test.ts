/** What a link still opens, and until when. */
import type { LinkCard, LinkId } from "@halflap/wire/api";
import { expect, test } from "vitest";
import { isLive, termWords } from "./link-terms.ts";

const now = new Date("2031-03-08T20:00:00Z");
const link: LinkCard = {
  id: "l1" as LinkId,
  role: "player",
  madeAt: "2031-03-01T12:00:00Z",
  expiresAt: "2031-03-15T12:00:00Z",
  usesLeft: 3,
  revoked: false,
};

test.each([
  [link, true, "3 uses left, until March 15"],
  [{ ...link, usesLeft: 1 }, true, "1 use left, until March 15"],
  [{ ...link, usesLeft: 0 }, false, "used up"],
  [{ ...link, expiresAt: "2031-03-08T19:59:59Z" }, false, "expired"],
  [{ ...link, revoked: true }, false, "revoked"],
])("a link is live until it is revoked, used up or expired (%#)", (card, live, words) => {
  expect(isLive(card, now)).toBe(live);
  expect(termWords(card, now, "en-US")).toBe(words);
});
