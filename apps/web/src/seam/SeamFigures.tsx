/** Fills and lines over the seam of one bar: each note a short bar at its pitch and time. */
import "./SeamFigures.css";
import { type Bar, type LaneId, laneIds, type Section } from "@halflap/board/board";
import { pretty } from "@halflap/theory/display";
import { accidentalsOf } from "@halflap/theory/key";
import { pitchName } from "@halflap/theory/pitch";
import { createMemo, For, Show } from "solid-js";
import { useDesk } from "../board/desk.ts";
import { useDrawn } from "../board/drawing.ts";
import { seamWords } from "../words/seam.ts";
import { type FigureNote, figureNotes } from "./figure-notes.ts";
import { heightOf, type PitchScale, seamHeight, semitoneHeight } from "./pitch-scale.ts";

const percent = (share: number) => `${(share * 100).toFixed(3)}%`;

/** Nothing where neither lane has a figure. */
export function SeamFigures(props: {
  readonly section: Section;
  readonly bar: Bar;
  readonly scale: PitchScale;
}) {
  const desk = useDesk();
  const isDrawn = useDrawn();
  const { board } = desk.session;
  const notes = createMemo(() =>
    laneIds.map((lane) => ({
      lane,
      notes: figureNotes(board.lanes[lane], props.section, props.bar),
    })),
  );
  const words = () => {
    const accidentals = accidentalsOf(board.key);
    return notes()
      .filter((each) => each.notes.length > 0)
      .map((each) => {
        const names = each.notes.map(({ pitch }) => pretty(pitchName(pitch, accidentals)));
        return seamWords.figure[each.lane](names.join(" "));
      })
      .join(", ");
  };
  return (
    <Show when={words()}>
      {(text) => (
        <svg class="seam-figures" width="100%" height={seamHeight} role="img" aria-label={text()}>
          <For each={isDrawn() ? notes() : []}>
            {(each) => (
              <For each={each.notes}>
                {(note) => <OneNote lane={each.lane} note={note} scale={props.scale} />}
              </For>
            )}
          </For>
        </svg>
      )}
    </Show>
  );
}

function OneNote(props: {
  readonly lane: LaneId;
  readonly note: FigureNote;
  readonly scale: PitchScale;
}) {
  const desk = useDesk();
  const thickness = () => Math.max(4, Math.min(6, semitoneHeight(props.scale) + 1));
  const isPicked = () => {
    const { slot, pitch } = props.note;
    return slot !== undefined && desk.isPicked(props.lane, slot, pitch);
  };
  return (
    <rect
      class="seam-figure-note"
      data-lane={props.lane}
      data-picked={isPicked() ? "" : undefined}
      x={percent(props.note.from)}
      width={percent(Math.max(0.02, props.note.to - props.note.from - 0.01))}
      y={heightOf(props.scale, props.note.pitch) - thickness() / 2}
      height={thickness()}
      rx={props.lane === "lower" ? thickness() / 2 : 0}
    />
  );
}
