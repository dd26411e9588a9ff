/** The way from a section to its voice. */
import type { Section } from "@halflap/board/board";
import { Show } from "solid-js";
import { useDesk } from "../board/desk.ts";
import { singingWords } from "../words/singing.ts";

/** For players; for all where something is marked as sung. */
export function VoiceButton(props: { readonly section: Section }) {
  const desk = useDesk();
  const first = () => props.section.bars[0];
  const isSung = () => {
    const bars = new Set(props.section.bars.map((bar) => bar.id));
    return desk.session.board.phrases.some((phrase) => bars.has(phrase.bar));
  };
  return (
    <Show when={desk.session.mayEditChart() || isSung() ? first() : undefined}>
      {(bar) => (
        <button
          type="button"
          class="button bare small"
          aria-label={singingWords.open(props.section.name)}
          onClick={() => desk.openSidePanel({ kind: "singing", bar: bar().id })}
        >
          {singingWords.voice}
        </button>
      )}
    </Show>
  );
}
