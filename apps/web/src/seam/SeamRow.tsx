/** The seam of one line of bars, with the marks of the findings that begin in each bar. */
import "./SeamRow.css";
import { type Bar, type LaneId, laneIds, type Section, type Slot } from "@halflap/board/board";
import { gripPitches } from "@halflap/theory/grip";
import { accidentalsOf } from "@halflap/theory/key";
import type { MidiNote } from "@halflap/theory/units";
import { createMemo, For, Show } from "solid-js";
import { type Desk, useDesk } from "../board/desk.ts";
import { signOf } from "../findings/reading-order.ts";
import { boardWords } from "../words/board.ts";
import { FindingMarks } from "./FindingMarks.tsx";
import { coveredSlots } from "./figure-notes.ts";
import { stretchIn } from "./mark-places.ts";
import { PitchNames } from "./PitchNames.tsx";
import type { PitchScale } from "./pitch-scale.ts";
import { SeamFigures } from "./SeamFigures.tsx";
import { SeamSlot } from "./SeamSlot.tsx";
import { seamText } from "./seam-text.ts";

/** A row of the board's grid. */
export function SeamRow(props: {
  readonly section: Section;
  readonly bars: readonly Bar[];
  readonly scale: PitchScale;
}) {
  return (
    <div class="line-row seam-row" role="row">
      <div class="seam-gutter" role="rowheader">
        <span class="spoken">{boardWords.seam}</span>
        <PitchNames scale={props.scale} />
      </div>
      <For each={props.bars}>
        {(bar) => (
          <div class="seam-bar" role="gridcell">
            <Stretch bar={bar} />
            <div class="seam-slots">
              <For each={bar.slots}>
                {(slot) => (
                  <OneSlot section={props.section} bar={bar} slot={slot} scale={props.scale} />
                )}
              </For>
              <SeamFigures section={props.section} bar={bar} scale={props.scale} />
            </div>
            <FindingMarks bar={bar} />
          </div>
        )}
      </For>
    </div>
  );
}

/** The time in which the picked finding sounds, as far as it lies in the bar. */
function Stretch(props: { readonly bar: Bar }) {
  const desk = useDesk();
  const stretch = createMemo(() => stretchIn(desk.picked(), props.bar));
  const sign = () => {
    const finding = desk.picked();
    return finding && signOf(finding);
  };
  return (
    <Show when={stretch()}>
      {(here) => (
        <div
          class="seam-stretch"
          data-sign={sign()}
          style={{ "--from": here().from, "--to": here().to }}
        />
      )}
    </Show>
  );
}

function OneSlot(props: {
  readonly section: Section;
  readonly bar: Bar;
  readonly slot: Slot;
  readonly scale: PitchScale;
}) {
  const desk = useDesk();
  const upper = createSounding(desk, "upper", props);
  const lower = createSounding(desk, "lower", props);
  const isTried = () => laneIds.some((lane) => desk.triedAt(lane, props.slot.id) !== undefined);
  const words = () => seamText(upper(), lower(), accidentalsOf(desk.session.board.key));
  return (
    <div
      class="seam-cell"
      data-tried={isTried() ? "" : undefined}
      style={{ "--beats": props.slot.length }}
    >
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
  at: { readonly section: Section; readonly bar: Bar; readonly slot: Slot },
): () => readonly MidiNote[] {
  return createMemo<readonly MidiNote[]>(
    () => {
      const here = desk.session.board.lanes[lane];
      const { layOuts, setup } = here;
      const isSilent =
        layOuts.has(at.bar.id) || coveredSlots(here, at.section, at.bar).has(at.slot.id);
      if (isSilent) return [];
      const tried = desk.triedAt(lane, at.slot.id);
      if (tried) return gripPitches(tried, desk.triedSetup(lane) ?? setup);
      const grip = desk.gripAt(lane, at.slot.id);
      return grip ? gripPitches(grip, setup) : [];
    },
    [],
    { equals: (a, b) => a.length === b.length && a.every((pitch, index) => pitch === b[index]) },
  );
}
