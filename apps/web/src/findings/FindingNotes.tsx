/**
 * The notes that a finding is about: both lanes' grips in the slot that is looked at, with the
 * notes marked.
 */
import "./FindingNotes.css";
import { type LaneId, laneIds } from "@halflap/board/board";
import type { Finding } from "@halflap/checker/finding";
import { pretty } from "@halflap/theory/display";
import { printGrip } from "@halflap/theory/grip";
import { accidentalsOf } from "@halflap/theory/key";
import { pitchName } from "@halflap/theory/pitch";
import { createMemo, For, Show } from "solid-js";
import { useDesk } from "../board/desk.ts";
import { whosePart } from "../board/owner.ts";
import { GripDiagram } from "../neck/GripDiagram.tsx";
import { findingsWords } from "../words/findings.ts";

/**
 * The slot is the one the keys stand on, as long as the finding reaches it, else its first.
 * Nothing for a finding that is about no notes, as about rhythm.
 */
export function FindingNotes(props: { readonly finding: Finding }) {
  const desk = useDesk();
  const here = createMemo(() => {
    const { slots } = props.finding;
    const stood = desk.slotPlace()?.slot;
    const id = slots.find((each) => each === stood) ?? slots[0];
    const bars = desk.session.board.sections.flatMap((section) => section.bars);
    for (const bar of bars) {
      const slot = bar.slots.find((each) => each.id === id);
      if (slot) return { bar, slot };
    }
    return undefined;
  });
  return (
    <Show when={props.finding.notes.length > 0 && here()}>
      {(place) => (
        <div class="finding-necks">
          <p class="small soft">
            {findingsWords.necks(pretty(place().slot.text), place().bar.number)}
          </p>
          <For each={laneIds}>
            {(lane) => <LaneNotes lane={lane} slot={place().slot.id} finding={props.finding} />}
          </For>
        </div>
      )}
    </Show>
  );
}

/** Each pitch is named once, low to high. */
function LaneNotes(props: {
  readonly lane: LaneId;
  readonly slot: Finding["slots"][number];
  readonly finding: Finding;
}) {
  const desk = useDesk();
  const lane = () => desk.session.board.lanes[props.lane];
  const names = createMemo(() => {
    const pitches = props.finding.notes
      .filter((note) => note.lane === props.lane && note.slot === props.slot)
      .map((note) => note.pitch);
    const accidentals = accidentalsOf(desk.session.board.key);
    return [...new Set(pitches)]
      .sort((a, b) => a - b)
      .map((pitch) => pretty(pitchName(pitch, accidentals)))
      .join(" ");
  });
  const grip = createMemo(() => lane().grips.get(props.slot));
  return (
    <div class="finding-neck small">
      <p class="finding-whose">
        <span class="lane-sign" data-lane={props.lane} aria-hidden="true" />
        {whosePart(desk.session, props.lane)}
      </p>
      <Show when={grip()} fallback={<p class="soft">{findingsWords.silent}</p>}>
        {(held) => (
          <>
            <GripDiagram
              grip={held()}
              setup={lane().setup}
              lane={props.lane}
              isPicked={(pitch) => desk.isPicked(props.lane, props.slot, pitch)}
            />
            <p class="fret-string soft">{printGrip(held())}</p>
          </>
        )}
      </Show>
      <Show when={names()}>{(words) => <p class="finding-pitches">{words()}</p>}</Show>
    </div>
  );
}
