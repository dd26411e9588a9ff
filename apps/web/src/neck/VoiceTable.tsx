/** Every voice of the grip, highest first: what it does from the grip before and on to the grip after. */
import "./VoiceTable.css";
import { describeGrip } from "@halflap/theory/describe-grip";
import { pretty } from "@halflap/theory/display";
import { gripPitches } from "@halflap/theory/grip";
import type { Semitones } from "@halflap/theory/units";
import { createMemo, For, Show } from "solid-js";
import { motionWords, neckWords } from "../words/neck.ts";
import type { NeckSlot } from "./neck-slot.ts";
import { voicesOf } from "./voices.ts";

/** Nothing while there is no grip, or no neighbour to move from or to. */
export function VoiceTable(props: { readonly slot: NeckSlot }) {
  const before = () => props.slot.neighbours().before;
  const after = () => props.slot.neighbours().after;
  const rows = createMemo(() => {
    const grip = props.slot.grip();
    if (!grip) return [];
    const setup = props.slot.setup();
    const pitches = (each: typeof grip | undefined) =>
      each ? gripPitches(each, setup) : undefined;
    const { notes } = describeGrip(grip, setup, props.slot.chord(), props.slot.key());
    const voices = voicesOf(
      gripPitches(grip, setup),
      pitches(before()?.grip),
      pitches(after()?.grip),
    );
    return [...voices].reverse().map((voice) => ({
      voice,
      name: notes.find((note) => note.pitch === voice.pitch)?.name ?? "",
    }));
  });
  return (
    <Show when={rows().length > 0 && (before() || after())}>
      <table class="voice-table small">
        <thead>
          <tr>
            <th scope="col">
              <Show when={before()} fallback={<span class="soft">{neckWords.nothingBefore}</span>}>
                {(from) => neckWords.voicesFrom(pretty(from().slot.text))}
              </Show>
            </th>
            <th scope="col">
              <span class="spoken">{neckWords.voice}</span>
            </th>
            <th scope="col">
              <Show when={after()} fallback={<span class="soft">{neckWords.nothingAfter}</span>}>
                {(to) => neckWords.voicesTo(pretty(to().slot.text))}
              </Show>
            </th>
          </tr>
        </thead>
        <tbody>
          <For each={rows()}>
            {(row) => (
              <tr>
                <td>{motions(row.voice.from)}</td>
                <th scope="row">{pretty(row.name)}</th>
                <td>{motions(row.voice.to)}</td>
              </tr>
            )}
          </For>
        </tbody>
      </table>
    </Show>
  );
}

function motions(each: readonly Semitones[]): string {
  return [...new Set(each.map((motion) => motionWords(motion)))].join(", ");
}
