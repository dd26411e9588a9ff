/**
 * The bar on top of a board: what it is, how its saving stands, who is here, and what can be done.
 */
import { A } from "@solidjs/router";
import { createSignal, type JSX, Show } from "solid-js";
import type { Session } from "../session/session.ts";
import { appWords } from "../words/app.ts";
import { RedoIcon, UndoIcon } from "./icons.tsx";
import { lazyPart } from "./lazy-part.tsx";
import { Mark } from "./Mark.tsx";
import { MoreMenu } from "./MoreMenu.tsx";
import { PresenceRow } from "./PresenceRow.tsx";
import { SettingsMenu } from "./SettingsMenu.tsx";
import { StateLine } from "./StateLine.tsx";
import { TitleField } from "./TitleField.tsx";
import "./TopBar.css";

const ShareDialog = lazyPart(async () => (await import("../share/ShareDialog.tsx")).ShareDialog);

/** One row where there is room, two on a phone. */
export function TopBar(props: { readonly session: Session }): JSX.Element {
  const [shares, setShares] = createSignal(false);
  return (
    <>
      <header class="top-bar">
        <A class="top-bar-door" href="/" aria-label={appWords.toDoor} title={appWords.toDoor}>
          <Mark />
        </A>
        <TitleField
          title={props.session.board.title}
          mayEdit={props.session.mayEditChart()}
          onTitle={props.session.chart.setTitle}
        />
        <SettingsMenu session={props.session} />
        <StateLine state={props.session.state()} />
        <PresenceRow session={props.session} />
        <Show when={props.session.mayEditChart()}>
          <div class="top-bar-undo">
            <button
              type="button"
              class="button bare"
              aria-label={appWords.undo}
              title={appWords.undo}
              disabled={!props.session.canUndo()}
              onClick={() => props.session.undo()}
            >
              <UndoIcon />
            </button>
            <button
              type="button"
              class="button bare"
              aria-label={appWords.redo}
              title={appWords.redo}
              disabled={!props.session.canRedo()}
              onClick={() => props.session.redo()}
            >
              <RedoIcon />
            </button>
          </div>
        </Show>
        <div class="top-bar-acts">
          <MoreMenu session={props.session} />
          <Show when={props.session.state().kind !== "closed"}>
            <button type="button" class="button main" onClick={() => setShares(true)}>
              {appWords.share}
            </button>
          </Show>
        </div>
      </header>
      <Show when={shares()}>
        <ShareDialog session={props.session} onClose={() => setShares(false)} />
      </Show>
    </>
  );
}
