/** Texts from outside, made fit for one line of the board. */

// biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what is taken out
const breaks = /[\u0000-\u001f\u007f-\u009f\u2028\u2029]/g;
const halves = /\p{Surrogate}/gu;

/**
 * The text of an untrusted value on one line: control characters become spaces, halves of
 * characters become U+FFFD, and what is longer than `max` code units is cut. undefined when it is
 * no text.
 */
export function oneLine(value: unknown, max: number): string | undefined {
  if (typeof value !== "string") return undefined;
  const cut = value.length > max ? value.slice(0, max) : value;
  const whole = cut !== value && /[\uD800-\uDBFF]$/.test(cut) ? cut.slice(0, -1) : cut;
  return whole.replace(breaks, " ").replace(halves, "\uFFFD");
}

/** Whether a text is already as `oneLine` would leave it. */
export function isOneLine(value: unknown, max: number): value is string {
  return typeof value === "string" && oneLine(value, max) === value;
}
