/**
 * What the keys mean while the board has the focus: the one list that the Keys dialog shows too.
 */
import { type ChosenKeys, chosenKeys, rememberKey } from "./chosen-keys.ts";
import type { Direction } from "./place.ts";

export type KeyCommand =
  | { readonly kind: "walk"; readonly direction: Direction }
  | { readonly kind: "open" }
  | { readonly kind: "close" }
  | { readonly kind: "finding"; readonly step: 1 | -1 }
  | { readonly kind: "lay-out" }
  | { readonly kind: "playing" }
  | { readonly kind: "singing" }
  | { readonly kind: "fit" }
  | { readonly kind: "listen" }
  | { readonly kind: "clear" }
  | { readonly kind: "show-keys" }
  | { readonly kind: "type"; readonly text: string };

/** The part of a keyboard event that decides. */
export type KeyPress = {
  readonly key: string;
  readonly ctrlKey: boolean;
  readonly metaKey: boolean;
  readonly altKey: boolean;
};

export type KeyName =
  | "walk"
  | "line"
  | "board"
  | "open"
  | "close"
  | "type"
  | "clear"
  | "lay-out"
  | "playing"
  | "singing"
  | "fit"
  | "listen"
  | "next-finding"
  | "previous-finding"
  | "show-keys";

export type Binding = {
  readonly name: KeyName;
  /** `KeyboardEvent.key`; a leading "Ctrl+" stands for Control, or Command on a Mac. */
  readonly keys: readonly string[];
  readonly command: (key: string) => KeyCommand;
};

const arrows: Readonly<Record<string, Direction>> = {
  ArrowLeft: "left",
  ArrowRight: "right",
  ArrowUp: "up",
  ArrowDown: "down",
  Home: "line-start",
  End: "line-end",
  "Ctrl+Home": "board-start",
  "Ctrl+End": "board-end",
};

const digits = ["0", "1", "2", "3", "4", "5", "6", "7", "8", "9"];

/** Every key the board listens to, in the order in which the dialog lists them. */
export const bindings: readonly Binding[] = [
  { name: "walk", keys: ["ArrowLeft", "ArrowRight", "ArrowUp", "ArrowDown"], command: walking },
  { name: "line", keys: ["Home", "End"], command: walking },
  { name: "board", keys: ["Ctrl+Home", "Ctrl+End"], command: walking },
  { name: "open", keys: ["Enter"], command: () => ({ kind: "open" }) },
  { name: "close", keys: ["Escape"], command: () => ({ kind: "close" }) },
  { name: "type", keys: [...digits, "x", "-"], command: (key) => ({ kind: "type", text: key }) },
  { name: "clear", keys: ["Delete", "Backspace"], command: () => ({ kind: "clear" }) },
  { name: "lay-out", keys: ["r"], command: () => ({ kind: "lay-out" }) },
  { name: "playing", keys: ["s"], command: () => ({ kind: "playing" }) },
  { name: "singing", keys: ["v"], command: () => ({ kind: "singing" }) },
  { name: "fit", keys: ["f"], command: () => ({ kind: "fit" }) },
  { name: "listen", keys: [" "], command: () => ({ kind: "listen" }) },
  { name: "next-finding", keys: ["n"], command: () => ({ kind: "finding", step: 1 }) },
  { name: "previous-finding", keys: ["p"], command: () => ({ kind: "finding", step: -1 }) },
  { name: "show-keys", keys: ["?"], command: () => ({ kind: "show-keys" }) },
];

/** What a key press asks for; undefined when it is none of the board's business. */
export function commandOf(press: KeyPress): KeyCommand | undefined {
  if (press.altKey) return undefined;
  const held = press.ctrlKey || press.metaKey;
  const letter = press.key.length === 1 ? press.key.toLowerCase() : press.key;
  const key = held ? `Ctrl+${letter}` : letter;
  const chosen = chosenKeys();
  return bindings.find((binding) => keysOf(binding, chosen).includes(key))?.command(key);
}

/** Whether another key can be chosen for it: for a single one that types nothing. */
export function isChangeable({ keys }: Binding): boolean {
  return keys.length === 1 && keys[0]?.length === 1;
}

/** The keys that it has, chosen or ours; none where it is switched off. */
export function keysOf(binding: Binding, chosen: ChosenKeys = chosenKeys()): readonly string[] {
  const key = isChangeable(binding) ? chosen[binding.name] : undefined;
  if (key === undefined) return binding.keys;
  return key === "" ? [] : [key];
}

/** The one key of something that has a single one; undefined where it is switched off. */
export function keyOf(name: KeyName): string | undefined {
  const binding = bindings.find((each) => each.name === name);
  return binding && keysOf(binding)[0];
}

/** Chooses a key, or "" for none; says what has it already, and chooses nothing then. */
export function chooseKey(name: KeyName, typed: string): KeyName | undefined {
  const key = typed.toLowerCase();
  const has = (binding: Binding) => binding.name !== name && keysOf(binding).includes(key);
  const taken = bindings.find(has)?.name;
  if (taken === undefined) rememberKey(name, key);
  return taken;
}

function walking(key: string): KeyCommand {
  return { kind: "walk", direction: arrows[key] ?? "right" };
}
