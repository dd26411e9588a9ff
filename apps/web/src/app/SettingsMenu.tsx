/** Key, tempo, meter and feel in one line; players open it to change them. */
import { parseMeter, printMeter } from "@halflap/board/meter";
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
    return [pretty(printKey(key)), printMeter(meter), String(tempo), feelWords[feel]].join(" · ");
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
      <MeterField session={props.session} />
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
  const onChange = (text: string) => {
    const read = parseKey(text.trim());
    if (!read.ok) return appWords.keyProblem(text, read.error.meant);
    props.session.chart.setKey(read.value);
    return undefined;
  };
  return (
    <CheckedField
      id="key"
      label={appWords.key}
      hint={appWords.keyHint}
      value={printKey(props.session.board.key)}
      onChange={onChange}
    />
  );
}

function MeterField(props: { readonly session: Session }): JSX.Element {
  const onChange = (text: string) => {
    const meter = parseMeter(text);
    if (meter === undefined) return appWords.meterProblem(text);
    props.session.chart.setMeter(meter);
    return undefined;
  };
  return (
    <CheckedField
      id="meter"
      label={appWords.meter}
      hint={appWords.meterHint}
      value={printMeter(props.session.board.meter)}
      onChange={onChange}
    />
  );
}

/** `onChange` answers with words when it can't take the text, which then stays as it was typed. */
function CheckedField(props: {
  readonly id: string;
  readonly label: string;
  readonly hint: string;
  readonly value: string;
  readonly onChange: (text: string) => string | undefined;
}): JSX.Element {
  const [problem, setProblem] = createSignal<string>();
  return (
    <div>
      <label class="label" for={props.id}>
        {props.label}
      </label>
      <input
        id={props.id}
        class="field"
        autocapitalize="off"
        autocomplete="off"
        aria-invalid={problem() !== undefined}
        aria-describedby={`${props.id}-hint`}
        value={props.value}
        onChange={(event) => setProblem(props.onChange(event.currentTarget.value))}
      />
      <p
        id={`${props.id}-hint`}
        class="small"
        classList={{ soft: !problem(), problem: !!problem() }}
      >
        {problem() ?? props.hint}
      </p>
    </div>
  );
}
