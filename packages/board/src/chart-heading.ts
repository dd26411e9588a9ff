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
const known = [...Object.keys(feels), "no bass", "with bass"];

/**
 * Tells title and settings from the first section's name. Two settings on a line are surely
 * settings; a single one too, unless it is one letter with the music right after it, as a section
 * may be named.
 */
export function headingOf(lines: readonly ChartLine[]): Heading {
  const firstOther = lines.findIndex(({ kind }) => kind !== "words");
  const words = firstOther < 0 ? lines : lines.slice(0, firstOther);
  const [first, second] = words;
  const isSettings = (line: ChartLine | undefined) => {
    if (line === undefined) return false;
    const named = line === words.at(-1) && /^\s*[A-G]\s*$/.test(line.text);
    return countSettings(line.text) > 0 && !named;
  };
  const surely = (line: ChartLine | undefined) => countSettings(line?.text ?? "") > 1;
  const titled = surely(second) || (!surely(first) && !isSettings(first) && isSettings(second));
  if (titled) return { title: first, settings: second, rest: lines.slice(2) };
  if (surely(first) || isSettings(first)) {
    return { title: undefined, settings: first, rest: lines.slice(1) };
  }
  const borrows = words.slice(0, 2).some(({ text }) => text.includes("="));
  if (second !== undefined && !borrows)
    return { title: first, settings: undefined, rest: lines.slice(1) };
  return { title: undefined, settings: undefined, rest: lines };
}

/** What a line of settings says, and each part of it that says nothing. */
export function readSettingsLine(text: string): {
  readonly settings: WrittenSettings;
  readonly problems: readonly LineProblem[];
} {
  const problems: LineProblem[] = [];
  let settings: WrittenSettings = {};
  for (const part of partsOf(text)) {
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

function countSettings(text: string): number {
  const parts = partsOf(text);
  const count = parts.filter((part) => settingOf(part.text) !== undefined).length;
  return count * 2 >= parts.length ? count : 0;
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
  if (mayBe("tempo") && /^\d+(?:\.\d+)?\s*(?:bpm)?$/i.test(said)) {
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
