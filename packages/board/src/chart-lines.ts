/** A chart text cut into lines, and a line of bars cut at its bar lines. */

export type ChartLine = {
  /** 1-based. */
  readonly number: number;
  /** Look-alike characters replaced one for one, so that columns stay what they were. */
  readonly text: string;
  /** The line to the letter, for names. */
  readonly typed: string;
  readonly kind: "bars" | "form" | "words";
};

/** A piece of a line and where it starts, 0-based. */
export type Piece = { readonly text: string; readonly column: number };

export type BarLinePiece =
  | ({ readonly kind: "bar" } & Piece)
  /** `|:` */
  | ({ readonly kind: "open" } & Piece)
  /** `:|`, or the count after it, and how often all since the opening is played. */
  | ({ readonly kind: "close"; readonly times: number } & Piece);

const lookAlikes: readonly (readonly [RegExp, string])[] = [
  [/[\t\u00a0\u2000-\u200d\u202f\u2060\u3000\ufeff]/g, " "],
  [/[\uff5c\u2502\u2503\u00a6\u2016\u2758\u2223\u2225\u01c0]/g, "|"],
  [/[\u2010-\u2015\u2212]/g, "-"],
  [/\uff05/g, "%"],
  [/[\u00b7\u2022]/g, "."],
  [/\u00d7/g, "x"],
];
const formAlone = /^\s*form\s*:$/i;
const barLine = /[:[]?\|[|:\]]*/g;
const times = /^\s*(?:[x×]\s*(\d{1,3})|(\d{1,3})\s*[x×])\s*$/i;

/** The lines that say something, whatever the line ends. */
export function linesOf(text: string): readonly ChartLine[] {
  const lines = text
    .replace(/^\ufeff/, "")
    .split(/\r\n|\r|\n/)
    .map((line, i) => {
      const plain = plainSigns(line);
      return { number: i + 1, text: plain.trimEnd(), typed: line, kind: kindOf(plain) };
    })
    .filter((line) => line.text !== "");
  return withLongForms(lines);
}

/**
 * The lines, where a form goes on into the next line: after a comma or an arrow, or, where "Form:"
 * stands alone, down to an empty line. What may head bars, or borrows, is no part of it.
 */
function withLongForms(lines: readonly ChartLine[]): readonly ChartLine[] {
  const all: ChartLine[] = [];
  let isList = false;
  for (const [i, line] of lines.entries()) {
    const before = all.at(-1);
    const isNext = before?.kind === "form" && before.number + 1 === line.number;
    const isOpen: boolean = isNext && (isList || /(?:[,;→]|->)$/.test(before.text));
    const heads = lines[i + 1]?.kind === "bars" && !/[,;]/.test(line.text);
    const goesOn: boolean = isOpen && line.kind === "words" && !heads && !line.text.includes("=");
    isList = formAlone.test(line.text) || (isList && goesOn);
    all.push(goesOn ? { ...line, kind: "form" } : line);
  }
  return all;
}

/** The text with look-alike characters replaced one for one. */
export function plainSigns(text: string): string {
  return lookAlikes.reduce((all, [like, sign]) => all.replace(like, sign), text);
}

function kindOf(text: string): ChartLine["kind"] {
  if (/^\s*form\s*:/i.test(text)) return "form";
  return text.includes("|") ? "bars" : "words";
}

/**
 * What stands on a line of bars, left to right. The outer bar lines may be missing; a name with a
 * colon may stand before the first one and is given apart.
 */
export function cutAtBarLines(text: string): {
  readonly name: Piece | undefined;
  readonly pieces: readonly BarLinePiece[];
} {
  const pieces: BarLinePiece[] = [];
  let name: Piece | undefined;
  let end = 0;
  let after: "start" | "close" | "open" | "plain" = "start";
  for (const { 0: sign, index } of [...text.matchAll(barLine), { 0: "", index: text.length }]) {
    const cell = { text: text.slice(end, index), column: end };
    const count = after === "close" ? timesOf(cell.text) : undefined;
    const last = pieces.at(-1);
    if (after === "start" && /\S\s*:\s*$/.test(cell.text)) name = cell;
    else if (count !== undefined && last?.kind === "close") {
      pieces[pieces.length - 1] = { kind: "close", times: count, ...trimmed(cell) };
    } else if (cell.text.trim() !== "" || (after === "plain" && /^\|/.test(sign))) {
      pieces.push({ kind: "bar", ...cell });
    }
    const found = { text: sign, column: index };
    const closes = sign.startsWith(":");
    const opens = sign.length > 1 && sign.endsWith(":");
    if (closes) pieces.push({ kind: "close", times: 2, ...found });
    if (opens) pieces.push({ kind: "open", ...found });
    after = opens ? "open" : closes ? "close" : "plain";
    end = index + sign.length;
  }
  return { name, pieces };
}

/** The piece without the spaces around it. */
export function trimmed({ text, column }: Piece): Piece {
  return { text: text.trim(), column: column + text.length - text.trimStart().length };
}

/** How often "x3" or "3x" says; undefined for anything else. */
export function timesOf(text: string): number | undefined {
  const match = times.exec(text);
  return match === null ? undefined : Number(match[1] ?? match[2]);
}
