/** Key, tempo, meter and feel in one line; players open it to change them. */
import { pretty } from "@halflap/theory/display";
import { parseKey, printKey } from "@halflap/theory/key";
import { createSignal, type JSX, Show } from "solid-js";
import type { Session } from "../session/session.ts";
import { appWords, feelWords } from "../words/app.ts";
import { Choice } from "./Choice.tsx";
import { Menu } from "./Menu.tsx";
import "./SettingsMenu.css";

const feels = ["straight", "swing", "shuffle"] as const;

/** Read by everybody, opened by players. */
export function SettingsMenu(props: { readonly session: Session }): JSX.Element {
  const line = () => {
    const { key, tempo, meter, feel } = props.session.board;
    return [
      pretty(printKey(key)),
      `${meter.beats}/${meter.unit}`,
      String(tempo),
      feelWords[feel],
    ].join(" · ");
  };
  return (
    <Show when={props.session.mayEditChart()} fallback={<p class="settings-line soft">{line()}</p>}>
      <Menu
        label={`${appWords.settings}: ${line()}`}
        class="bare settings-line"
        face={<span>{line()}</span>}
        content={() => <Settings session={props.session} />}
      />
    </Show>
  );
}

function Settings(props: { readonly session: Session }): JSX.Element {
  return (
    <div class="settings">
      <KeyField session={props.session} />
      <div>
        <label class="label" for="tempo">
          {appWords.tempo}
        </label>
        <input
          id="tempo"
          class="field"
          type="number"
          inputmode="numeric"
          min={20}
          max={400}
          value={props.session.board.tempo}
          onChange={(event) => {
            const tempo = event.currentTarget.valueAsNumber;
            if (Number.isFinite(tempo)) props.session.chart.setTempo(tempo);
            event.currentTarget.value = String(props.session.board.tempo);
          }}
        />
      </div>
      <Choice
        label={appWords.feel}
        options={feels}
        words={feelWords}
        chosen={props.session.board.feel}
        onChoose={props.session.chart.setFeel}
      />
      <label class="settings-check">
        <input
          type="checkbox"
          checked={props.session.board.hasBass}
          onChange={(event) => props.session.chart.setHasBass(event.currentTarget.checked)}
        />
        <span>{appWords.bass}</span>
      </label>
    </div>
  );
}

function KeyField(props: { readonly session: Session }): JSX.Element {
  const [problem, setProblem] = createSignal<string>();
  const onChange = (text: string) => {
    const read = parseKey(text.trim());
    setProblem(read.ok ? undefined : appWords.keyProblem(text, read.error.meant));
    if (read.ok) props.session.chart.setKey(read.value);
  };
  return (
    <div>
      <label class="label" for="key">
        {appWords.key}
      </label>
      <input
        id="key"
        class="field"
        autocapitalize="off"
        autocomplete="off"
        aria-invalid={problem() !== undefined}
        aria-describedby="key-hint"
        value={printKey(props.session.board.key)}
        onChange={(event) => onChange(event.currentTarget.value)}
      />
      <p id="key-hint" class="small" classList={{ soft: !problem(), problem: !!problem() }}>
        {problem() ?? appWords.keyHint}
      </p>
    </div>
  );
}
