/** The lines before the music: a title, and key, tempo, meter and feel in any order. */
import { type Key, parseKey } from "@halflap/theory/key";
import type { ChartSettings } from "./chart-draft.ts";
import type { ChartLine, Piece } from "./chart-lines.ts";
import { type LineProblem, nearest, problemAt } from "./chart-problem.ts";
import { nameMax, tempoMax, tempoMin } from "./limits.ts";
import { parseMeter } from "./meter.ts";

export type Heading = {
  readonly title: ChartLine | undefined;
  readonly settings: ChartLine | undefined;
  /** The lines that follow. */
  readonly rest: readonly ChartLine[];
};

export type WrittenSettings = Partial<Omit<ChartSettings, "title">>;

type Label = (typeof labels)[number];

type Setting = { readonly [K in keyof WrittenSettings]: WrittenSettings[K] };

const feels = { straight: "straight", swing: "swing", swung: "swing", shuffle: "shuffle" } as const;
const labels = ["key", "tempo", "meter", "feel"] as const;
const number = /^\d+(?:\.\d+)?\s*(?:bpm)?$/i;
const known = [...Object.keys(feels), "no bass", "with bass"];

/**
 * Tells title and settings from the sections. Two settings on a line are surely settings, wherever
 * before the music; a single one too at the top, unless it is one letter with the music right after
 * it, as a section may be named. Without settings, a first line with no bars right below it is
 * the title.
 */
export function headingOf(lines: readonly ChartLine[]): Heading {
  const music = lines.findIndex(({ kind }) => kind === "bars");
  const before = music < 0 ? lines : lines.slice(0, music);
  const words = before.filter(({ kind }) => kind === "words");
  const settings = settingsIn(words);
  const [first] = words;
  const titled = settings === undefined ? isTitle(lines) : settings !== first;
  const title = titled ? first : undefined;
  return { title, settings, rest: lines.filter((line) => line !== title && line !== settings) };
}

function settingsIn(words: readonly ChartLine[]): ChartLine | undefined {
  const surely = words.filter(({ text }) => countSettings(partsOf(text)) > 1);
  const [first, second] = words;
  if (second !== undefined && surely.includes(second)) return second;
  if (surely.length > 0) return surely[0];
  const spaced = words.find(({ text }) => countSettings(settingParts(text)) > 1);
  const isSingle = (line: ChartLine | undefined) => {
    if (line === undefined) return false;
    const named = line === words.at(-1) && /^\s*[A-G]\s*$/.test(line.text);
    return countSettings(partsOf(line.text)) > 0 && !named;
  };
  return spaced ?? [first, second].find(isSingle);
}

function isTitle([first, second]: readonly ChartLine[]): boolean {
  if (first?.kind !== "words" || second === undefined || second.kind === "bars") return false;
  return !/=|:$/.test(first.text);
}

/** What a line of settings says, and each part of it that says nothing. */
export function readSettingsLine(text: string): {
  readonly settings: WrittenSettings;
  readonly problems: readonly LineProblem[];
} {
  const problems: LineProblem[] = [];
  let settings: WrittenSettings = {};
  for (const part of settingParts(text)) {
    const setting = settingOf(part.text);
    const twice = Object.keys(setting ?? {}).find((name) => Object.hasOwn(settings, name));
    if (setting === undefined) problems.push(unknownSetting(part));
    else if (twice !== undefined) {
      problems.push(problemAt(part, `"${part.text}": the ${twice} was already said on this line.`));
    } else settings = { ...settings, ...setting };
  }
  return { settings, problems };
}

/** The pieces between commas, without the spaces around them. */
export function partsOf(text: string): readonly Piece[] {
  return [...text.matchAll(/[^,;]+/g)].flatMap(({ 0: part, index }) => {
    const spaces = part.length - part.trimStart().length;
    return part.trim() === "" ? [] : [{ text: part.trim(), column: index + spaces }];
  });
}

/** What stands between commas, or, with a number among them, settings between spaces. */
function settingParts(text: string): readonly Piece[] {
  return partsOf(text).flatMap((part) => spacedSettings(part) ?? [part]);
}

/** "G major 96": the longest settings from left to right, if they are all that the part says. */
function spacedSettings({ text, column }: Piece): readonly Piece[] | undefined {
  if (text.length > nameMax || !/\d/.test(text) || settingOf(text) !== undefined) return undefined;
  const words = [...text.matchAll(/\S+/g)];
  const ends = words.map((word) => word.index + word[0].length);
  const found: Piece[] = [];
  let end = 0;
  for (const { index } of words) {
    if (index < end) continue;
    const longest = ends.filter((each) => {
      return each > index && settingOf(text.slice(index, each)) !== undefined;
    });
    end = longest.at(-1) ?? text.length;
    if (longest.length === 0) return undefined;
    found.push({ text: text.slice(index, end), column: column + index });
  }
  return found;
}

function countSettings(parts: readonly Piece[]): number {
  const count = parts.filter(({ text }) => settingOf(text) !== undefined || isMeant(text)).length;
  return count * 2 >= parts.length ? count : 0;
}

/** Whether this is surely meant for a tempo or meter, though it is none. */
function isMeant(text: string): boolean {
  const { label, said } = labelled(text);
  if (label === "meter") return /^\d+\s*\/\s*\d+$/.test(said);
  return label === "tempo" ? number.test(said) : /bpm$/i.test(said) && number.test(said);
}

/** Which setting "Key: F" says it is, and what it says. */
function labelled(text: string): { readonly label: Label | undefined; readonly said: string } {
  const [whole = "", typed = ""] = /^(key|tempo|meter|time|feel)\s*:\s*/i.exec(text) ?? [];
  const word = typed.toLowerCase();
  const label = labels.find((each) => each === word) ?? (word === "time" ? "meter" : undefined);
  return { label, said: text.slice(whole.length) };
}

function settingOf(text: string): Setting | undefined {
  const { label, said } = labelled(text);
  const setting = plainSettingOf(said);
  const isOther = label !== undefined && setting !== undefined && !Object.hasOwn(setting, label);
  return isOther ? undefined : setting;
}

function plainSettingOf(text: string): Setting | undefined {
  if (text.length > nameMax) return undefined;
  const words = text.toLowerCase().replace(/\s+/g, " ");
  const tempo = /^(?:♩|tempo)? ?=? ?(\d{2,3}(?:\.\d+)?) ?(?:bpm)?$/.exec(words);
  if (tempo !== null) {
    const beats = Number(tempo[1]);
    return beats >= tempoMin && beats <= tempoMax ? { tempo: beats } : undefined;
  }
  const meter = parseMeter(text);
  if (meter !== undefined) return { meter };
  const feel = /^(straight|swing|swung|shuffle)(?: feel| eighths)?$/.exec(words)?.[1];
  if (feel === "straight" || feel === "swing" || feel === "swung" || feel === "shuffle") {
    return { feel: feels[feel] };
  }
  const bass = /^(no|without|with)? ?bass(?: player)?$/.exec(words);
  if (bass !== null) return { hasBass: bass[1] === undefined || bass[1] === "with" };
  const key = keyOf(text);
  return key === undefined ? undefined : { key };
}

function keyOf(text: string): Key | undefined {
  const key = parseKey(text.replace(/^(?:key(?: of)?|in)\s+/i, ""));
  return key.ok ? key.value : undefined;
}

function unknownSetting(part: Piece): LineProblem {
  const { label, said } = labelled(part.text);
  const mayBe = (each: Label) => label === undefined || label === each;
  if (part.text.length > nameMax) return problemAt(part, "This is no key, tempo, meter or feel.");
  if (mayBe("tempo") && number.test(said)) {
    return problemAt(part, `A tempo lies between ${tempoMin} and ${tempoMax} beats a minute.`);
  }
  if (mayBe("meter") && /^\d+\s*\/\s*\d+$/.test(said)) {
    return problemAt(part, `${said} is no meter I know: beats over 2, 4, 8 or 16.`, "4/4");
  }
  const key = parseKey(said);
  const meant = nearest(said, known) ?? (key.ok ? undefined : key.error.meant);
  const guess = meant === undefined ? "" : ` Did you mean ${meant}?`;
  const words = `"${part.text}" is no key, tempo, meter or feel.${guess}`;
  return problemAt(part, words, meant);
}
