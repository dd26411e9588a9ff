/** What is needed now and then: the chart as text, a copy of the board, the page's colours. */
import { createSignal, type JSX, Show } from "solid-js";
import type { Session } from "../session/session.ts";
import { appWords } from "../words/app.ts";
import { CopyIcon, MoreIcon, TakeIcon } from "./icons.tsx";
import { lazyPart } from "./lazy-part.tsx";
import { Menu } from "./Menu.tsx";
import { ThemeChoice } from "./ThemeChoice.tsx";
import { takeCopy } from "./take-copy.ts";

const ChartTextDialog = lazyPart(
  async () => (await import("./ChartTextDialog.tsx")).ChartTextDialog,
);

/** A menu, and the sheet with the chart's text that it opens. */
export function MoreMenu(props: { readonly session: Session }): JSX.Element {
  const [showsText, setShowsText] = createSignal(false);
  return (
    <>
      <Menu
        label={appWords.menu}
        face={<MoreIcon />}
        class="bare"
        content={(close) => (
          <>
            <div class="menu-list">
              <button
                type="button"
                class="button bare"
                onClick={() => {
                  close();
                  setShowsText(true);
                }}
              >
                <CopyIcon />
                {appWords.chartText}
              </button>
              <button
                type="button"
                class="button bare"
                onClick={() => {
                  close();
                  takeCopy(props.session.copy());
                }}
              >
                <TakeIcon />
                {appWords.takeCopy}
              </button>
            </div>
            <div class="menu-group">
              <ThemeChoice />
            </div>
          </>
        )}
      />
      <Show when={showsText()}>
        <ChartTextDialog session={props.session} onClose={() => setShowsText(false)} />
      </Show>
    </>
  );
}
