/** The words of a bar under its strokes: loudness, mutes, what the band means, a text. */
import { For, Show } from "solid-js";
import { playedWords } from "../words/played.ts";
import type { FillFigure } from "./playing-figure.ts";
import type { BarMarks } from "./playing-text.ts";

/** Nothing where nothing is marked. Drawn for the eye: the strip says it in words. */
export function MarkLine(props: {
  readonly marks: BarMarks;
  readonly fills: readonly FillFigure[];
}) {
  const words = () => [
    ...(props.marks.palmMute ? [playedWords.palmMuteShort] : []),
    ...(props.marks.letRing ? [playedWords.letRingShort] : []),
    ...(props.fills.some(({ fill }) => fill.together) ? [playedWords.together] : []),
    ...props.marks.aims.map((aim) => playedWords.aims[aim]),
    ...props.marks.passes,
  ];
  const isEmpty = () => {
    const { dynamic, mark } = props.marks;
    return dynamic === undefined && mark === "" && words().length === 0;
  };
  return (
    <Show when={!isEmpty()}>
      <p class="playing-marks" aria-hidden="true">
        <Show when={props.marks.dynamic}>
          {(dynamic) => <span class="playing-dynamic">{dynamic()}</span>}
        </Show>
        <For each={words()}>{(word) => <span class="playing-word">{word}</span>}</For>
        <Show when={props.marks.mark}>{(mark) => <span class="lane-mark">{mark()}</span>}</Show>
      </p>
    </Show>
  );
}
