/** Light, dark, or as the system says; remembered in this browser. */
import { createRoot, createSignal } from "solid-js";
import { remember, remembered } from "../session/remembered.ts";

export const themes = ["system", "light", "dark"] as const;
export type Theme = (typeof themes)[number];

const [chosen, choose] = createRoot(() =>
  createSignal<Theme>(
    remembered("theme", (value) => themes.find((each) => each === value)) ?? "system",
  ),
);

/** The theme that was chosen, live. */
export const theme = chosen;

/** Chooses, remembers and shows a theme. */
export function setTheme(next: Theme): void {
  choose(next);
  remember("theme", next);
  showTheme();
}

/** Puts the chosen theme on the page; the style sheets do the rest. */
export function showTheme(): void {
  const { dataset } = document.documentElement;
  if (theme() === "system") delete dataset.theme;
  else dataset.theme = theme();
}
