/** The fields of what holds for the whole board: key, tempo, meter, feel, and more. */
import { countInMax, endingMax } from "@halflap/board/limits";
import { parseMeter, printMeter } from "@halflap/board/meter";
import { parseKey, printKey } from "@halflap/theory/key";
import { createSignal, type JSX } from "solid-js";
import type { Session } from "../session/session.ts";
import { appWords, feelWords } from "../words/app.ts";
import { limitsWords } from "../words/limits.ts";
import { Choice } from "./Choice.tsx";

const feels = ["straight", "swing", "shuffle"] as const;

/** Each is kept when it is left; what can't be read stays as it was typed. */
export function Settings(props: {
  readonly session: Session;
  readonly onLimits: () => void;
}): JSX.Element {
  const { chart } = props.session;
  return (
    <div class="settings">
      <KeyField session={props.session} />
      <NumberField
        id="tempo"
        label={appWords.tempo}
        min={20}
        max={400}
        value={props.session.board.tempo}
        onChange={chart.setTempo}
      />
      <MeterField session={props.session} />
      <Choice
        label={appWords.feel}
        options={feels}
        words={feelWords}
        chosen={props.session.board.feel}
        onChoose={chart.setFeel}
      />
      <NumberField
        id="count-in"
        label={appWords.countIn}
        min={0}
        max={countInMax}
        value={props.session.board.countIn}
        onChange={(bars) => chart.setCountIn(Math.round(bars))}
      />
      <div>
        <label class="label" for="ending">
          {appWords.ending}
        </label>
        <input
          id="ending"
          class="field"
          maxlength={endingMax}
          placeholder={appWords.endingHint}
          value={props.session.board.ending}
          onChange={(event) => chart.setEnding(event.currentTarget.value)}
        />
      </div>
      <Check words={appWords.bass} isOn={props.session.board.hasBass} onChange={chart.setHasBass} />
      <Check
        words={appWords.blueNotes}
        isOn={props.session.board.blueNotes}
        onChange={chart.setBlueNotes}
      />
      <Check
        words={appWords.distorted}
        isOn={props.session.board.distorted}
        onChange={chart.setDistorted}
      />
      <button type="button" class="button" onClick={() => props.onLimits()}>
        {limitsWords.title}…
      </button>
    </div>
  );
}

function Check(props: {
  readonly words: string;
  readonly isOn: boolean;
  readonly onChange: (on: boolean) => void;
}): JSX.Element {
  return (
    <label class="settings-check">
      <input
        type="checkbox"
        checked={props.isOn}
        onChange={(event) => props.onChange(event.currentTarget.checked)}
      />
      <span>{props.words}</span>
    </label>
  );
}

/** What can't be taken falls back to what stands. */
function NumberField(props: {
  readonly id: string;
  readonly label: string;
  readonly min: number;
  readonly max: number;
  readonly value: number;
  readonly onChange: (value: number) => void;
}): JSX.Element {
  return (
    <div>
      <label class="label" for={props.id}>
        {props.label}
      </label>
      <input
        id={props.id}
        class="field"
        type="number"
        inputmode="numeric"
        min={props.min}
        max={props.max}
        value={props.value}
        onChange={(event) => {
          const typed = event.currentTarget.valueAsNumber;
          if (Number.isFinite(typed)) {
            props.onChange(Math.min(props.max, Math.max(props.min, typed)));
          }
          event.currentTarget.value = String(props.value);
        }}
      />
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
