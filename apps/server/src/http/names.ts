/** Names as they come in, of people and of takes: one rule for both. */
import { nameMax } from "@halflap/board/limits";
import { memberNameMax } from "@halflap/wire/limits";
import type { Refused } from "./answers.ts";
import { bad, type Fields } from "./body.ts";

/**
 * A name on one line, without what does not show: 1 to 40 characters as people count them, and no
 * longer than `talk` and a take's head hold. Measured in the form in which it is stored, which may
 * be the longer one. Throws Refused.
 */
export function nameIn(fields: Fields): string {
  const value = fields.name;
  if (typeof value !== "string") throw bad("A name is missing.");
  if (value.length > typedMax) throw tooLong();
  const typed = value.trim();
  if (refused.test(typed)) throw bad("A name can't hold control characters or line breaks.");
  const name = shown(typed).normalize("NFC").trim();
  if (!visible.test(name)) throw bad("A name needs at least one character that can be seen.");
  if ([...name].length > memberNameMax || name.length > nameMax) throw tooLong();
  return name;
}

/** With all that is taken out; what is longer is not looked at. */
const typedMax = 1_000;

function tooLong(): Refused {
  return bad(`A name has at most ${memberNameMax} characters, and fewer where some are emoji.`);
}

/** Controls, line and paragraph separators, and marks that turn the direction of what follows. */
const refused = /[\p{Cc}\p{Cs}\p{Zl}\p{Zp}\u202a-\u202e\u2066-\u2069]/u;

/** More than blanks; the one for fingertips is no space to Unicode. */
const visible = /[^\s\u2800]/u;

/** Without the characters that show nothing: two names that look the same are the same. */
function shown(text: string): string {
  return text.replace(seenOrHidden, "$1");
}

const emoji = /\p{Extended_Pictographic}(?:\ufe0e|\ufe0f|\p{Emoji_Modifier})?/u.source;
/** Where a character that shows nothing by itself changes what is seen. */
const seenTogether = [
  /\u{1f3f4}[\u{e0030}-\u{e0039}\u{e0061}-\u{e007a}]{3,6}\u{e007f}/u, // flags of regions
  new RegExp(`${emoji}(?:\\u200d${emoji})*`, "u"),
  /[0-9#*]\ufe0f\u20e3/u, // keycaps
  /\p{Ideographic}[\u{e0100}-\u{e01ef}]/u, // another drawing of a Han character
  /(?<=\p{Script=Arabic})\u200c(?=\p{Script=Arabic})/u, // parts of Persian words
  /(?<=[\u094d\u09cd\u0a4d\u0acd\u0b4d\u0bcd\u0c4d\u0ccd\u0d4d\u0dca])[\u200c\u200d]/u, // Indic
].map(({ source }) => source);
const seenOrHidden = new RegExp(
  `(${seenTogether.join("|")})|[\\p{Cf}\\p{Default_Ignorable_Code_Point}]`,
  "gu",
);
