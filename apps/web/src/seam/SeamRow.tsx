/** The seam of one line of bars, with the marks of the findings that begin in each bar. */
import "./SeamRow.css";
import type { Bar, LaneId, Slot } from "@halflap/board/board";
import { gripPitches } from "@halflap/theory/grip";
import { accidentalsOf } from "@halflap/theory/key";
import type { MidiNote } from "@halflap/theory/units";
import { createMemo, For } from "solid-js";
import { type Desk, useDesk } from "../board/desk.ts";
import { boardWords } from "../words/board.ts";
import { FindingMarks } from "./FindingMarks.tsx";
import { PitchNames } from "./PitchNames.tsx";
import type { PitchScale } from "./pitch-scale.ts";
import { SeamSlot } from "./SeamSlot.tsx";
import { seamText } from "./seam-text.ts";

/** A row of the board's grid. */
export function SeamRow(props: { readonly bars: readonly Bar[]; readonly scale: PitchScale }) {
  const desk = useDesk();
  return (
    <div class="line-row seam-row" role="row">
      <div class="seam-gutter" role="rowheader">
        <span class="spoken">{boardWords.seam}</span>
        <PitchNames scale={props.scale} />
      </div>
      <For each={props.bars}>
        {(bar) => (
          <div
            class="seam-bar"
            role="gridcell"
            data-picked={desk.picked()?.bars.includes(bar.id) ? "" : undefined}
          >
            <div class="seam-slots">
              <For each={bar.slots}>
                {(slot) => <OneSlot bar={bar} slot={slot} scale={props.scale} />}
              </For>
            </div>
            <FindingMarks bar={bar} />
          </div>
        )}
      </For>
    </div>
  );
}

function OneSlot(props: { readonly bar: Bar; readonly slot: Slot; readonly scale: PitchScale }) {
  const desk = useDesk();
  const upper = createSounding(desk, "upper", props);
  const lower = createSounding(desk, "lower", props);
  const words = () => seamText(upper(), lower(), accidentalsOf(desk.session.board.key));
  return (
    <div class="seam-cell" style={{ "--beats": props.slot.length }}>
      <SeamSlot
        upper={upper()}
        lower={lower()}
        scale={props.scale}
        words={words()}
        isPicked={(lane, pitch) => desk.isPicked(lane, props.slot.id, pitch)}
      />
    </div>
  );
}

/** A lane's ascending pitches in a slot; the same list as long as nothing there changes. */
function createSounding(
  desk: Desk,
  lane: LaneId,
  at: { readonly bar: Bar; readonly slot: Slot },
): () => readonly MidiNote[] {
  return createMemo<readonly MidiNote[]>(
    () => {
      const { layOuts, grips, setup } = desk.session.board.lanes[lane];
      const grip = layOuts.has(at.bar.id) ? undefined : grips.get(at.slot.id);
      return grip ? gripPitches(grip, setup) : [];
    },
    [],
    { equals: (a, b) => a.length === b.length && a.every((pitch, index) => pitch === b[index]) },
  );
}
