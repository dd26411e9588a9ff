/** Reading a chart of 200 bars, beside cutting the same text into its words. */
import { parseChartText } from "@halflap/board/chart-text";
import { type Figure, percentile, timed } from "./figure.ts";

const bars = 200;
const runs = 100;

/** Median and slow end of parsing, in ms. */
export function chartText(): readonly Figure[] {
  const text = longChart();
  const read = parseChartText(text);
  const found = read.draft?.sections.reduce((sum, section) => sum + section.bars.length, 0);
  if (found !== bars) throw new Error(`the chart has ${found} bars, not ${bars}`);
  const parsing = timed(runs, () => void parseChartText(text));
  const cutting = timed(runs, () => void text.split("\n").map((line) => line.split(/[\s|]+/)));
  return [0.5, 0.95].map((share) => ({
    name: `parse of a ${bars}-bar chart text, p${share * 100}`,
    unit: "ms",
    value: percentile(parsing, share),
    budget: 50,
    baseline: { name: "splitting the text at lines and blanks", value: percentile(cutting, share) },
  }));
}

/** 50 lines of four bars in sections of eight, with splits, slashes, repeats and dots. */
function longChart(): string {
  const lines = ["| Bb6 | G7b9 | Cm7 . F7 . | % |", "| Ebmaj7 | Edim7 | Bb/F | F13 F7 |"];
  const body = Array.from({ length: bars / 4 }, (_, index) => {
    const head = index % 2 === 0 ? `\nSection ${index / 2 + 1}\n` : "";
    return `${head}${lines[index % 2]}`;
  });
  return `A long one\nBb, 126, swing\n${body.join("\n")}\n`;
}
