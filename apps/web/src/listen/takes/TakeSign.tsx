/** A small sign on the bar where takes begin. */
import "./TakeSign.css";
import type { Bar } from "@halflap/board/board";
import { Show } from "solid-js";
import { useDesk } from "../../board/desk.ts";
import { takeSignWords } from "../../words/take-sign.ts";
import { takeAge, takePlayer } from "./take-line.ts";

/** Says whose and when to whoever rests on it; they are heard from the slat at the bottom. */
export function TakeSign(props: { readonly bar: Bar }) {
  const desk = useDesk();
  const takes = () => desk.session.board.takes.filter((take) => take.bars[0]?.bar === props.bar.id);
  const words = () =>
    takes()
      .map((take) => takeSignWords.sign(take.name, takePlayer(desk.session, take), takeAge(take)))
      .join("\n");
  return (
    <Show when={takes().length > 0}>
      <span class="take-sign" title={words()}>
        <svg viewBox="0 0 16 12" aria-hidden="true">
          <path d="M1 6h2l1.5-4 3 8 3-8L12 6h3" />
        </svg>
        <Show when={takes().length > 1}>
          <span aria-hidden="true">{takes().length}</span>
        </Show>
        <span class="spoken">{takeSignWords.spoken(takes().length)}</span>
      </span>
    </Show>
  );
}
