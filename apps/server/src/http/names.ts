/** Names as they come in, of people and of takes: one rule for both. */
import { nameMax } from "@halflap/board/limits";
import { memberNameMax } from "@halflap/wire/limits";
import { bad, type Fields } from "./body.ts";

/**
 * A name on one line: 1 to 40 characters as people count them, and no longer than `talk` and a
 * take's head hold. Measured in the form in which it is stored, which may be the longer one. Throws
 * Refused.
 */
export function nameIn(fields: Fields): string {
  const value = fields.name;
  if (typeof value !== "string") throw bad("A name is missing.");
  const name = value.normalize("NFC").trim();
  if (name === "") throw bad("A name needs at least one character.");
  if ([...name].length > memberNameMax || name.length > nameMax) {
    throw bad(`A name has at most ${memberNameMax} characters, and fewer where some are emoji.`);
  }
  if (refused.test(name)) throw bad("A name can't hold control characters or line breaks.");
  return name;
}

/** Controls, line and paragraph separators, and marks that turn the direction of what follows. */
const refused = /[\p{Cc}\p{Cs}\p{Zl}\p{Zp}\u202a-\u202e\u2066-\u2069]/u;
