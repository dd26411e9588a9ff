/** What is needed now and then: the chart as text, a copy of the board, the page's colours. */
import { printChartText } from "@halflap/board/chart-text";
import { createSignal, type JSX, Show } from "solid-js";
import type { Session } from "../session/session.ts";
import { appWords } from "../words/app.ts";
import { CopyField } from "./CopyField.tsx";
import { Dialog } from "./Dialog.tsx";
import { CopyIcon, MoreIcon, TakeIcon } from "./icons.tsx";
import { Menu } from "./Menu.tsx";
import { ThemeChoice } from "./ThemeChoice.tsx";
import { takeCopy } from "./take-copy.ts";

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
        <Dialog title={appWords.chartText} onClose={() => setShowsText(false)}>
          <CopyField
            label={appWords.chartTextHint}
            text={printChartText(props.session.board)}
            rows={16}
          />
        </Dialog>
      </Show>
    </>
  );
}
