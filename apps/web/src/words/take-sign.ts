/** Words of the sign where takes begin. */

/** What is said of takes on the chart. */
export const takeSignWords = {
  someone: "somebody who has left",
  spoken: (count: number) => (count === 1 ? ", 1 take" : `, ${count} takes`),
  sign: (name: string, who: string, when: string) => `${name}: ${who}, ${when}`,
} as const;
