/** How a grip sits beside the other lane, in words. */
import { pretty } from "@halflap/theory/display";
import { accidentalsOf } from "@halflap/theory/key";
import { pitchName } from "@halflap/theory/pitch";
import type { MidiNote } from "@halflap/theory/units";
import { Show } from "solid-js";
import { neckWords } from "../words/neck.ts";
import { type Beside, isClear, isCovered } from "./beside.ts";
import type { NeckSlot } from "./neck-slot.ts";

/** Nothing while the other lane is silent. */
export function BesideWords(props: {
  readonly beside: Beside | undefined;
  readonly whose: string;
  readonly slot: NeckSlot;
}) {
  const name = (pitch: MidiNote) =>
    pretty(pitchName(pitch, accidentalsOf(props.slot.key()))).replace(/-?\d+$/, "");
  const words = (beside: Beside) => {
    if (isClear(beside)) return neckWords.clearOf(props.whose);
    const [rub] = beside.rubs;
    if (rub) return neckWords.rubs(name(rub[0]), name(rub[1]));
    if (beside.shared.length > 0) return neckWords.shares(beside.shared.length, props.whose);
    return neckWords.covers(props.whose);
  };
  return (
    <Show when={props.beside}>
      {(beside) => (
        <span
          class="beside-words small"
          data-clear={isClear(beside()) ? "" : undefined}
          data-covered={isCovered(beside()) ? "" : undefined}
        >
          {words(beside())}
        </span>
      )}
    </Show>
  );
}
