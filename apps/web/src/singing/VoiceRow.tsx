/** The voice under a line of bars: what is sung, the gaps between, and whose they are. */
import "./VoiceRow.css";
import type { Bar, BarId } from "@halflap/board/board";
import { createMemo, For, Show } from "solid-js";
import { useDesk } from "../board/desk.ts";
import { boardWords } from "../words/board.ts";
import { singingWords } from "../words/singing.ts";
import { createSectionVoice, type SectionVoice } from "./section-voice.ts";
import { startsOf } from "./sung-cells.ts";
import { type VoiceMark, voiceMarks } from "./voice-marks.ts";

/** A row of the board's grid; nothing in a section where nothing is marked as sung. */
export function VoiceRow(props: { readonly bars: readonly Bar[] }) {
  return (
    <Show when={props.bars[0]}>{(first) => <Row first={first().id} bars={props.bars} />}</Show>
  );
}

function Row(props: { readonly first: BarId; readonly bars: readonly Bar[] }) {
  const desk = useDesk();
  const voice = createSectionVoice(desk, () => props.first);
  return (
    <Show when={voice.sung().length > 0}>
      <div class="line-row voice-row" role="row">
        <div class="line-gutter voice-name small soft" role="rowheader">
          {singingWords.voice}
        </div>
        <For each={props.bars}>{(bar) => <VoiceCell voice={voice} bar={bar} />}</For>
      </div>
    </Show>
  );
}

function VoiceCell(props: { readonly voice: SectionVoice; readonly bar: Bar }) {
  const desk = useDesk();
  const marks = createMemo(() => {
    const start = startsOf(props.voice.section()?.bars ?? []).get(props.bar.id) ?? 0;
    return voiceMarks(props.voice.sung(), props.voice.gaps(), start, props.bar.length);
  });
  const words = () =>
    marks()
      .map((mark) => (mark.kind === "sung" ? singingWords.sung : gapWords(mark)))
      .join(", ");
  return (
    <div class="voice-cell" role="gridcell">
      <button
        type="button"
        class="voice-open"
        tabindex="-1"
        aria-label={`${boardWords.bar(props.bar.number)}, ${singingWords.voice}: ${words()}`}
        onClick={() => desk.openSidePanel({ kind: "singing", bar: props.bar.id })}
      >
        <For each={marks()}>
          {(mark) => (
            <span
              class="voice-mark"
              data-kind={mark.kind}
              data-owner={mark.kind === "gap" ? mark.owner : undefined}
              style={{ "--from": mark.from, "--part": mark.part }}
            />
          )}
        </For>
      </button>
    </div>
  );
}

function gapWords(mark: Extract<VoiceMark, { kind: "gap" }>): string {
  const owner = mark.owner === undefined ? singingWords.notSaid : singingWords.owner[mark.owner];
  return `${singingWords.free}, ${owner}`;
}
