/**
 * The notes that a finding is about, lane by lane, and for those who want it the rule and its
 * measure.
 */
import { type LaneId, laneIds } from "@halflap/board/board";
import type { Finding } from "@halflap/checker/finding";
import { pretty } from "@halflap/theory/display";
import { accidentalsOf } from "@halflap/theory/key";
import { pitchName } from "@halflap/theory/pitch";
import { For, Show } from "solid-js";
import { useDesk } from "../board/desk.ts";
import { whosePart } from "../board/owner.ts";
import { findingsWords } from "../words/findings.ts";

/** Each pitch is named once a lane, low to high. */
export function FindingNotes(props: { readonly finding: Finding }) {
  const desk = useDesk();
  const notes = (lane: LaneId) => {
    const pitches = props.finding.notes
      .filter((note) => note.lane === lane)
      .map((note) => note.pitch);
    const accidentals = accidentalsOf(desk.session.board.key);
    return [...new Set(pitches)]
      .sort((a, b) => a - b)
      .map((pitch) => pretty(pitchName(pitch, accidentals)))
      .join(" ");
  };
  return (
    <>
      <ul class="finding-notes small">
        <For each={laneIds}>
          {(lane) => (
            <Show when={notes(lane)}>
              {(names) => (
                <li data-lane={lane}>
                  <span class="lane-sign" data-lane={lane} aria-hidden="true" />
                  {findingsWords.sounds(whosePart(desk.session, lane), names())}
                </li>
              )}
            </Show>
          )}
        </For>
      </ul>
      <details class="small soft">
        <summary>{findingsWords.details}</summary>
        {findingsWords.rule(props.finding.rule)}:{" "}
        {findingsWords.measured(figure(props.finding.measured), figure(props.finding.threshold))}
      </details>
    </>
  );
}

/** Two decimals where they say something. */
function figure(value: number): string {
  return String(Math.round(value * 100) / 100);
}
