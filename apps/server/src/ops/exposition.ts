/** Figures in the text that Prometheus reads (its exposition format, version 0.0.4). */

export type Sample = {
  /** What follows the family's name: "_bucket", "_sum", "_count", or nothing. */
  readonly suffix?: string;
  /** From closed lists only: each pair of values is a line that is kept for ever. */
  readonly labels?: Readonly<Record<string, string>>;
  readonly value: number;
};

export type Family = {
  readonly name: string;
  readonly help: string;
  readonly type: "counter" | "gauge" | "histogram";
  readonly samples: readonly Sample[];
};

/** The media type of the text. */
export const expositionType = "text/plain; version=0.0.4; charset=utf-8";

/** The whole text, a family after the other, each with what it means. */
export function exposition(families: readonly Family[]): string {
  return families.map(familyText).join("");
}

function familyText({ name, help, type, samples }: Family): string {
  const lines = samples.map(({ suffix = "", labels = {}, value }) => {
    const pairs = Object.entries(labels).map(([label, text]) => `${label}="${escaped(text)}"`);
    const among = pairs.length === 0 ? "" : `{${pairs.join(",")}}`;
    return `${name}${suffix}${among} ${value}\n`;
  });
  return `# HELP ${name} ${help}\n# TYPE ${name} ${type}\n${lines.join("")}`;
}

function escaped(text: string): string {
  return text.replace(/\\/g, "\\\\").replace(/\n/g, "\\n").replace(/"/g, '\\"');
}
