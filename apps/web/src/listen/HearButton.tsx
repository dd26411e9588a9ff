/** Hear some bars once: as they stand, or with changes that nobody has made yet. */
import "./HearButton.css";
import type { BarId, LaneId } from "@halflap/board/board";
import type { LaneEdit } from "@halflap/board/proposal";
import { Show } from "solid-js";
import { useDesk } from "../board/desk.ts";
import { listenWords } from "../words/listen.ts";
import { chartEnds } from "./bar-names.ts";
import { useListening } from "./create-listening.ts";
import { hearWhenPointed } from "./hear-when-pointed.ts";
import { PlayIcon } from "./icons.tsx";
import type { Once } from "./order-of-play.ts";

/** Both lanes are heard; `lane` is the one that `edits` would change. */
export function HearButton(props: {
  readonly words: string;
  /** What a screen reader says after the words, where several stand side by side. */
  readonly spoken?: string;
  readonly bars: readonly BarId[];
  readonly lane: LaneId;
  readonly edits: readonly LaneEdit[];
  /** Changes of the other lane that are heard along. */
  readonly also?: { readonly lane: LaneId; readonly edits: readonly LaneEdit[] } | undefined;
  /** Nothing but `lane` sounds. */
  readonly isAlone?: boolean;
}) {
  const desk = useDesk();
  const listening = useListening();
  const ends = () => chartEnds(desk.session.board, props.bars);
  const trial = (bars: Pick<Once, "from" | "to">) => ({
    bars: { kind: "once", ...bars } as const,
    lane: props.lane,
    edits: props.edits,
    also: props.also,
    slot: undefined,
  });
  return (
    <Show when={ends()}>
      {(bars) => (
        <button
          type="button"
          class="button bare small hear"
          ref={hearWhenPointed(() => ({ ...trial(bars()), needsBoth: true }))}
          onClick={() =>
            listening.hear({ ...trial(bars()), heard: props.isAlone ? "lane" : "all" })
          }
        >
          <PlayIcon />
          {props.words}
          <Show when={props.spoken}>
            <span class="spoken">{listenWords.hearSpoken(props.spoken ?? "")}</span>
          </Show>
        </button>
      )}
    </Show>
  );
}
