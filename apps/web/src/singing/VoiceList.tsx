/** The people who sing in this tune: who they are and how far their voices reach. */
import { type LaneId, laneIds } from "@halflap/board/board";
import { type Voice, voiceTypes } from "@halflap/board/singing";
import { asciiAccidentals, midiOf, pitchName } from "@halflap/theory/pitch";
import { createSignal, For, Show, untrack } from "solid-js";
import { useDesk } from "../board/desk.ts";
import { singingWords, voiceTypeWords } from "../words/singing.ts";

/** Opens unfolded where the first voice is still to be added. */
export function VoiceList() {
  const desk = useDesk();
  const voices = () => desk.session.board.voices;
  const startsOpen = untrack(() => voices().length === 0);
  const add = () =>
    desk.session.singing.addVoice({
      name: singingWords.newVoice,
      lane: undefined,
      type: undefined,
      range: undefined,
    });
  return (
    <details class="voices" open={startsOpen}>
      <summary class="label">{singingWords.voices}</summary>
      <ul class="voice-list">
        <For each={voices()}>{(voice) => <VoiceFields voice={voice} />}</For>
      </ul>
      <Show when={desk.session.mayEditChart()}>
        <button type="button" class="button" onClick={add}>
          {singingWords.addVoice}
        </button>
      </Show>
    </details>
  );
}

function VoiceFields(props: { readonly voice: Voice }) {
  const desk = useDesk();
  const change = (part: Partial<Voice>) =>
    desk.session.singing.changeVoice({ ...props.voice, ...part });
  const rename = (name: string) => {
    if (/[^\s\p{Cc}]/u.test(name)) change({ name });
  };
  const lane = (value: string): LaneId | undefined => laneIds.find((each) => each === value);
  return (
    <li>
      <fieldset class="voice-fields" disabled={!desk.session.mayEditChart()}>
        <legend class="spoken">{props.voice.name}</legend>
        <label>
          <span class="label small">{singingWords.name}</span>
          <input
            class="field"
            value={props.voice.name}
            onChange={(event) => rename(event.currentTarget.value)}
          />
        </label>
        <label>
          <span class="label small">{singingWords.isWho}</span>
          <select
            class="field"
            onChange={(event) => change({ lane: lane(event.currentTarget.value) })}
          >
            <option value="" selected={props.voice.lane === undefined}>
              {singingWords.somebodyElse}
            </option>
            <For each={laneIds}>
              {(each) => (
                <option value={each} selected={props.voice.lane === each}>
                  {singingWords.guitarist[each]}
                </option>
              )}
            </For>
          </select>
        </label>
        <label>
          <span class="label small">{singingWords.type}</span>
          <select
            class="field"
            onChange={(event) =>
              change({ type: voiceTypes.find((each) => each === event.currentTarget.value) })
            }
          >
            <option value="" selected={props.voice.type === undefined}>
              {singingWords.notSaid}
            </option>
            <For each={voiceTypes}>
              {(type) => (
                <option value={type} selected={props.voice.type === type}>
                  {voiceTypeWords[type]}
                </option>
              )}
            </For>
          </select>
        </label>
        <RangeFields voice={props.voice} onChange={(range) => change({ range })} />
        <button
          type="button"
          class="button bare small"
          aria-label={singingWords.removeVoice(props.voice.name)}
          onClick={() => desk.session.singing.removeVoice(props.voice.id)}
        >
          {singingWords.remove}
        </button>
      </fieldset>
    </li>
  );
}

/** Both notes or none; what is typed stays until it can be kept. */
function RangeFields(props: {
  readonly voice: Voice;
  readonly onChange: (range: Voice["range"]) => void;
}) {
  const [typed, setTyped] = createSignal<{ readonly low?: string; readonly high?: string }>({});
  const [problem, setProblem] = createSignal<string>();
  const shown = (end: "low" | "high") => {
    const pitch = props.voice.range?.[end];
    return typed()[end] ?? (pitch === undefined ? "" : pitchName(pitch, "flats"));
  };
  const write = (end: "low" | "high", text: string) => {
    setTyped({ ...typed(), [end]: text });
    const [low, high] = [shown("low").trim(), shown("high").trim()];
    if (low === "" || high === "") {
      setProblem(undefined);
      if (low === high) props.onChange(undefined);
      return;
    }
    const [from, to] = [midiOf(asciiAccidentals(low)), midiOf(asciiAccidentals(high))];
    if (from === undefined || to === undefined) setProblem(singingWords.badNote);
    else if (to < from) setProblem(singingWords.badRange);
    else {
      setProblem(undefined);
      setTyped({});
      props.onChange({ low: from, high: to });
    }
  };
  return (
    <>
      <label>
        <span class="label small">{singingWords.low}</span>
        <input
          class="field voice-note"
          value={shown("low")}
          onChange={(event) => write("low", event.currentTarget.value)}
        />
      </label>
      <label>
        <span class="label small">{singingWords.high}</span>
        <input
          class="field voice-note"
          value={shown("high")}
          onChange={(event) => write("high", event.currentTarget.value)}
        />
      </label>
      <Show when={problem()}>
        {(words) => (
          <p class="field-problem small" role="alert">
            {words()}
          </p>
        )}
      </Show>
    </>
  );
}
