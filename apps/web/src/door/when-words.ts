/** How long ago something was, as one would say it. */

const minuteMs = 60_000;
const hourMs = 60 * minuteMs;
const dayMs = 24 * hourMs;
const weekMs = 7 * dayMs;

/** "just now", "5 minutes ago", "yesterday", then the date; in the browser's language. */
export function whenWords(then: Date, now: Date, language?: string): string {
  const agoMs = now.getTime() - then.getTime();
  const words = new Intl.RelativeTimeFormat(language, { numeric: "auto" });
  if (Number.isNaN(agoMs)) return "";
  if (agoMs < minuteMs) return words.format(0, "second");
  if (agoMs < hourMs) return words.format(-Math.floor(agoMs / minuteMs), "minute");
  if (agoMs < dayMs) return words.format(-Math.floor(agoMs / hourMs), "hour");
  if (agoMs < weekMs) return words.format(-Math.floor(agoMs / dayMs), "day");
  return then.toLocaleDateString(language, { day: "numeric", month: "long", year: "numeric" });
}
