/** Words of the seam. */
export const seamWords = {
  silent: "both lanes silent",
  upper: (low: string, high: string) => `upper lane ${low} to ${high}`,
  lower: (low: string, high: string) => `lower lane ${low} to ${high}`,
  upperSilent: "upper lane silent",
  lowerSilent: "lower lane silent",
  flush: "registers apart",
  overlap: (low: string, high: string) => `registers overlap from ${low} to ${high}`,
  doubled: (names: string) => `both sound ${names}`,
  figure: {
    upper: (names: string) => `upper lane plays ${names}`,
    lower: (names: string) => `lower lane plays ${names}`,
  },
  legend: "How to read the seam",
  legendNotes: "Square ends: upper lane. Round ends: lower lane.",
  legendFigures: "Short bars: the notes of a fill or a line, at their time.",
  legendOverlap: "Cross-hatched: both lanes use this register.",
  legendDoubled: "A bracket ties a note that both play.",
} as const;
