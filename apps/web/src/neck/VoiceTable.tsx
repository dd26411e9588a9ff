/**
 * The grip voice by voice, low to high: what each does from the grip before and on to the grip
 * after.
 */
import "./VoiceTable.css";
import { describeGrip } from "@halflap/theory/describe-grip";
import { pretty } from "@halflap/theory/display";
import { type Grip, gripPitches } from "@halflap/theory/grip";
import type { Semitones } from "@halflap/theory/units";
import { createMemo, For, Show } from "solid-js";
import { motionsWords, neckWords } from "../words/neck.ts";
import type { NeckSlot } from "./neck-slot.ts";
import type { Neighbour } from "./neighbours.ts";
import { voicesOf } from "./voices.ts";

/** One column a note, with its degree in the chord. */
export function VoiceTable(props: { readonly slot: NeckSlot; readonly grip: Grip }) {
  const setup = () => props.slot.setup();
  const notes = createMemo(() =>
    [...describeGrip(props.grip, setup(), props.slot.chord(), props.slot.key()).notes].sort(
      (a, b) => a.pitch - b.pitch,
    ),
  );
  const voices = createMemo(() => {
    const { before, after } = props.slot.neighbours();
    const pitches = (each: Neighbour | undefined) =>
      each ? gripPitches(each.grip, setup()) : undefined;
    return voicesOf(gripPitches(props.grip, setup()), pitches(before), pitches(after));
  });
  return (
    <table class="voice-table">
      <tbody>
        <MotionRow
          neighbour={props.slot.neighbours().before}
          words={neckWords.voicesFrom}
          motions={voices().map((voice) => voice.from)}
        />
        <tr class="voice-notes">
          <th scope="row">
            <span class="spoken">{neckWords.voices}</span>
          </th>
          <For each={notes()}>
            {(note) => (
              <td>
                {pretty(note.name)}
                <Show when={note.degree}>
                  {(degree) => <span class="voice-degree">{pretty(degree())}</span>}
                </Show>
              </td>
            )}
          </For>
        </tr>
        <MotionRow
          neighbour={props.slot.neighbours().after}
          words={neckWords.voicesTo}
          motions={voices().map((voice) => voice.to)}
        />
      </tbody>
    </table>
  );
}

/** Nothing while there is no neighbour on that side. */
function MotionRow(props: {
  readonly neighbour: Neighbour | undefined;
  readonly words: (chord: string) => string;
  readonly motions: readonly (readonly Semitones[])[];
}) {
  return (
    <Show when={props.neighbour}>
      {(neighbour) => (
        <tr class="voice-motions">
          <th scope="row">{props.words(pretty(neighbour().slot.text))}</th>
          <For each={props.motions}>{(each) => <td>{motionsWords(each)}</td>}</For>
        </tr>
      )}
    </Show>
  );
}
