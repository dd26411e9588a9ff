/** The keys that somebody chose instead of ours, remembered on this device. */
import { createSignal } from "solid-js";

/** By the name of what the key does; "" = switched off. */
export type ChosenKeys = Readonly<Record<string, string>>;

const storedAs = "halflap-keys";
const [chosen, setChosen] = createSignal<ChosenKeys>(stored());

/** What was chosen, live. */
export const chosenKeys = chosen;

/** Chooses another key for one thing. */
export function rememberKey(name: string, key: string): void {
  setChosen({ ...chosen(), [name]: key });
  store(JSON.stringify(chosen()));
}

/** Gives up all that was chosen. */
export function forgetKeys(): void {
  setChosen({});
  store(undefined);
}

function store(text: string | undefined): void {
  try {
    if (text === undefined) localStorage.removeItem(storedAs);
    else localStorage.setItem(storedAs, text);
  } catch {
    // Without room for it they are as they were on the next visit.
  }
}

function stored(): ChosenKeys {
  try {
    const value: unknown = JSON.parse(localStorage.getItem(storedAs) ?? "{}");
    return decodeKeys(value) ?? {};
  } catch {
    return {}; // no storage, or not ours
  }
}

function decodeKeys(value: unknown): ChosenKeys | undefined {
  if (typeof value !== "object" || value === null) return undefined;
  const isKey = (key: unknown) => typeof key === "string" && key.length <= 1;
  return Object.values(value).every(isKey) ? Object.fromEntries(Object.entries(value)) : undefined;
}
