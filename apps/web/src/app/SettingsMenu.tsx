/** Key, tempo, meter and feel in one line, which players open to change them. */
import { printMeter } from "@halflap/board/meter";
import { pretty } from "@halflap/theory/display";
import { printKey } from "@halflap/theory/key";
import { createSignal, type JSX, Show } from "solid-js";
import type { Session } from "../session/session.ts";
import { appWords, feelWords } from "../words/app.ts";
import { lazyPart } from "./lazy-part.tsx";
import { Menu } from "./Menu.tsx";
import "./SettingsMenu.css";

const Settings = lazyPart(async () => (await import("./Settings.tsx")).Settings);
const LimitsDialog = lazyPart(async () => (await import("./LimitsDialog.tsx")).LimitsDialog);

/** Read by everybody, opened by players. */
export function SettingsMenu(props: { readonly session: Session }): JSX.Element {
  const line = () => {
    const { key, tempo, meter, feel } = props.session.board;
    return [pretty(printKey(key)), printMeter(meter), String(tempo), feelWords[feel]].join(" · ");
  };
  const [showsLimits, setShowsLimits] = createSignal(false);
  return (
    <Show when={props.session.mayEditChart()} fallback={<p class="settings-line soft">{line()}</p>}>
      <Menu
        label={`${appWords.settings}: ${line()}`}
        class="bare settings-line"
        face={<span>{line()}</span>}
        content={(close) => (
          <Settings
            session={props.session}
            onLimits={() => {
              close();
              setShowsLimits(true);
            }}
            onClose={close}
          />
        )}
      />
      <Show when={showsLimits()}>
        <LimitsDialog session={props.session} onClose={() => setShowsLimits(false)} />
      </Show>
    </Show>
  );
}
