/** Chooses the page's colours. */
import type { JSX } from "solid-js";
import { appWords } from "../words/app.ts";
import { Choice } from "./Choice.tsx";
import { setTheme, theme, themes } from "./theme.ts";

/** Light, dark or as the system; remembered. */
export function ThemeChoice(): JSX.Element {
  return (
    <Choice
      label={appWords.theme}
      options={themes}
      words={appWords.themes}
      chosen={theme()}
      onChoose={setTheme}
    />
  );
}
