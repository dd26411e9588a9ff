/** Words of the findings panel. */
import type { Severity } from "@halflap/checker/finding";

export const severityWords: Readonly<
  Record<Severity, { readonly one: string; readonly many: string; readonly meaning: string }>
> = {
  stop: { one: "stop", many: "stops", meaning: "will sound wrong" },
  fix: { one: "fix", many: "fixes", meaning: "change it before rehearsal" },
  look: { one: "look", many: "looks", meaning: "listen and decide together" },
  note: { one: "note", many: "notes", meaning: "good to know" },
};

/** Everything the panel says. */
export const findingsWords = {
  heading: "Findings",
  picked: "Picked finding",
  none: "Nothing sticks out.",
  noneYet: "Nothing to compare yet.",
  noneMore: "Where both lanes have grips, they lie flush.",
  emptyBoard: "Choose grips in both lanes, and whatever does not fit shows up here.",
  next: "Next finding",
  previous: "Previous finding",
  silence: "Live with it…",
  silenceLabel: "Why it may stay",
  silenceHint: "“The hook needs it”",
  silenceConfirm: "Keep it quiet",
  reasonMissing: "Write a reason, so that the other player knows.",
  cancel: "Cancel",
  silenced: (count: number) => `${count} you live with`,
  bringBack: "Bring back",
  details: "Details",
  rule: (id: string) => `rule ${id}`,
  measured: (value: string, from: string) => `${value}, flagged from ${from}`,
  sounds: (lane: string, notes: string) => `${lane}: ${notes}`,
  show: "Open the neck",
  bar: (number: number) => `Bar ${number}`,
  until: (bar: number) => `up to bar ${bar}`,
} as const;

/** "2 fixes", "1 stop". */
export function severityCount(severity: Severity, count: number): string {
  const words = severityWords[severity];
  return `${count} ${count === 1 ? words.one : words.many}`;
}
