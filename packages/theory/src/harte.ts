/**
 * Chords in the text syntax of Harte, Sandler, Abdallah and Gómez (ISMIR 2005, pp. 66-71), in
 * which annotated collections of songs are published: "C:min7", "G:7(b9)/3". SPEC.md T21.
 */
import type { Chord, NoteName, Reading, SoundingChord } from "./chord.ts";
import { suffixOf } from "./chord-suffix.ts";
import { degreeOf } from "./degree.ts";
import { degreeBetween, noteAtDegree } from "./letter-degree.ts";
import { noChord, parseChord } from "./parse-chord.ts";
import { noteName } from "./pitch.ts";

/** The longest text read, in UTF-16 units. */
export const harteTextMax = 96;

export type HarteError = {
  readonly kind: "empty" | "unknown-root" | "unknown-shorthand" | "unknown-degree" | "no-symbol";
  /** 0-based column where reading stopped; a chord that no symbol can say stops at its end. */
  readonly column: number;
  readonly read: string;
  /** The same chord in this syntax, where the text is a chord symbol instead. */
  readonly meant: string | undefined;
};

/** The shorthands of the paper and what each stands for besides the root, which is implied. */
const shorthands: readonly (readonly [name: string, degrees: readonly string[]])[] = [
  ["maj", ["3", "5"]],
  ["min", ["b3", "5"]],
  ["dim", ["b3", "b5"]],
  ["aug", ["3", "#5"]],
  ["maj7", ["3", "5", "7"]],
  ["min7", ["b3", "5", "b7"]],
  ["7", ["3", "5", "b7"]],
  ["dim7", ["b3", "b5", "bb7"]],
  ["hdim7", ["b3", "b5", "b7"]],
  ["minmaj7", ["b3", "5", "7"]],
  ["maj6", ["3", "5", "6"]],
  ["min6", ["b3", "5", "6"]],
  ["9", ["3", "5", "b7", "9"]],
  ["maj9", ["3", "5", "7", "9"]],
  ["min9", ["b3", "5", "b7", "9"]],
  ["sus4", ["4", "5"]],
];

/** Read as well, from what later collections write; never written. */
const laterShorthands: ReadonlyMap<string, readonly string[]> = new Map([
  ...shorthands,
  ["sus2", ["2", "5"]],
  ["5", ["5"]],
  ["aug7", ["3", "#5", "b7"]],
  ["11", ["3", "5", "b7", "9", "11"]],
  ["maj11", ["3", "5", "7", "9", "11"]],
  ["min11", ["b3", "5", "b7", "9", "11"]],
  ["13", ["3", "5", "b7", "9", "11", "13"]],
  ["maj13", ["3", "5", "7", "9", "11", "13"]],
  ["min13", ["b3", "5", "b7", "9", "11", "13"]],
]);

/** What stands behind the root, as far as it could be read. */
type Cut =
  | { readonly ok: true; readonly degrees: ReadonlySet<string>; readonly bass: string }
  | { readonly ok: false; readonly kind: HarteError["kind"]; readonly column: number };

/**
 * The chord a Harte text spells; "N" is N.C. The chord is one that our symbols can say too; any
 * other is refused as "no-symbol". Columns count from the first character of `text`.
 */
export function parseHarte(text: string): Reading<Chord, HarteError> {
  const offset = text.length - text.trimStart().length;
  const typed = text.trim();
  const failure = (kind: HarteError["kind"], column: number): Reading<Chord, HarteError> => ({
    ok: false,
    error: {
      kind,
      column: column + offset,
      read: typed.slice(column),
      meant: kind === "no-symbol" ? undefined : meantBy(typed),
    },
  });
  if (typed === "") return failure("empty", 0);
  if (typed.length > harteTextMax) return failure("unknown-degree", harteTextMax);
  if (typed === "N") return { ok: true, value: noChord };
  const rootText = /^[A-G][b#]*/.exec(typed)?.[0] ?? "";
  const root = noteName(rootText);
  if (root === undefined) return failure("unknown-root", 0);
  const cut = cutBody(typed, rootText.length);
  if (!cut.ok) return failure(cut.kind, cut.column);
  const chord = chordOf(root, cut);
  return chord === undefined ? failure("no-symbol", typed.length) : { ok: true, value: chord };
}

/**
 * The chord in Harte syntax, with the shorthand that leaves least to add and to take away, or
 * with its degrees alone where that is shorter. Reading it again gives the same chord.
 */
export function printHarte(chord: Chord): string {
  if (chord.kind === "no-chord") return "N";
  const degrees = chord.tones.map((tone) => tone.degree).filter((degree) => degree !== "1");
  const plain = { text: `(${degrees.join() || "1"})`, cost: degrees.length };
  const best = shorthands
    .map(([name, meant]) => editOf(name, meant, degrees))
    .reduce((one, other) => (other.cost < one.cost ? other : one), plain);
  const bass = chord.bass === chord.root ? "" : `/${degreeBetween(chord.root, chord.bass)}`;
  return `${chord.root}:${best.text}${bass}`;
}

function editOf(
  name: string,
  meant: readonly string[],
  degrees: readonly string[],
): { readonly text: string; readonly cost: number } {
  const omitted = meant.filter((degree) => !degrees.includes(degree)).map((degree) => `*${degree}`);
  const added = degrees.filter((degree) => !meant.includes(degree));
  const edits = [...omitted, ...added];
  // The half makes bare degrees win a draw, and adding is plainer than taking away: "(2,5)" reads
  // better than "maj(*3,2)", "sus4(b7,9)" better than "9(*3,4)".
  const cost = edits.length + 0.5 + omitted.length / 4;
  return { text: name + (edits.length > 0 ? `(${edits.join()})` : ""), cost };
}

function cutBody(typed: string, start: number): Cut {
  const slash = typed.indexOf("/");
  const end = slash < 0 ? typed.length : slash;
  const bass = slash < 0 ? "1" : typed.slice(slash + 1);
  if (!isHarteDegree(bass)) return { ok: false, kind: "unknown-degree", column: end + 1 };
  if (start === end) return { ok: true, degrees: new Set(["3", "5"]), bass };
  if (typed[start] !== ":") return { ok: false, kind: "unknown-shorthand", column: start };
  const name = /^[a-z0-9]*/.exec(typed.slice(start + 1, end))?.[0] ?? "";
  const meant = name === "" ? [] : laterShorthands.get(name);
  const listStart = start + 1 + name.length;
  if (meant === undefined || (name === "" && listStart === end)) {
    return { ok: false, kind: "unknown-shorthand", column: start + 1 };
  }
  const degrees = new Set(meant);
  const stop = listStart === end ? undefined : applyList(typed.slice(0, end), listStart, degrees);
  if (stop !== undefined) return { ok: false, kind: "unknown-degree", column: stop };
  return { ok: true, degrees, bass };
}

/** Adds and takes away what the brackets say; the column where they say nothing, if anywhere. */
function applyList(text: string, start: number, degrees: Set<string>): number | undefined {
  if (text[start] !== "(") return start;
  if (!text.endsWith(")")) return text.length;
  let column = start + 1;
  for (const item of text.slice(start + 1, -1).split(",")) {
    const spelled = item.trim();
    const isOmitted = spelled.startsWith("*");
    const degree = isOmitted ? spelled.slice(1) : spelled;
    if (!isHarteDegree(degree)) return column;
    if (isOmitted && !degrees.delete(degree)) return column;
    if (!isOmitted) degrees.add(degree);
    column += item.length + 1;
  }
  return undefined;
}

function isHarteDegree(text: string): boolean {
  return /^[b#]*(?:1[0-3]|[1-9])$/.test(text);
}

function chordOf(root: NoteName, cut: Cut & { readonly ok: true }): SoundingChord | undefined {
  const wanted = asInSymbols(cut.degrees);
  if (wanted === undefined) return undefined;
  const named = noteAtDegree(root, cut.bass);
  const read = parseChord(`${root}${suffixOf(["1", ...wanted])}/${named}`);
  if (!read.ok || read.value.kind === "no-chord") return undefined;
  const said = new Set<string>(read.value.tones.map((tone) => tone.degree));
  const isSame = said.size === wanted.size + 1 && [...wanted].every((degree) => said.has(degree));
  return isSame ? read.value : undefined;
}

/**
 * The degrees under the names that chord symbols use: beside a third the second is a ninth, beside
 * a seventh the sixth a thirteenth. undefined when one of them is in no symbol, as ♯3 or ♭♭6.
 */
function asInSymbols(degrees: ReadonlySet<string>): ReadonlySet<string> | undefined {
  const within = [...degrees].map((degree) =>
    degree.replace(/8$/, "1").replace(/10$/, "3").replace(/12$/, "5"),
  );
  const has = (...names: readonly string[]) => names.some((name) => within.includes(name));
  const hasThird = has("3", "b3");
  const hasSeventh = has("bb7", "b7", "7");
  const named = within.map((degree) => {
    if (/[b#]2$/.test(degree) || (hasThird && degree === "2")) return degree.replace("2", "9");
    if (degree === "#4" || (hasThird && degree === "4")) return degree.replace("4", "11");
    return hasSeventh && degree === "6" ? "13" : degree;
  });
  if (named.some((degree) => degreeOf(degree) === undefined)) return undefined;
  return new Set(named.filter((degree) => degree !== "1"));
}

/** What the text says if it is a chord symbol of ours, with or without the colon. */
function meantBy(typed: string): string | undefined {
  const read = parseChord(typed.replace(":", ""));
  return read.ok ? printHarte(read.value) : undefined;
}
