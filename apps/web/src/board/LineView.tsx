/** One line of bars, drawn as a joint: chords, upper lane, seam, lower lane, voice. */
import "./LineView.css";
import type { Bar, Section } from "@halflap/board/board";
import { createMemo, createSignal, Show } from "solid-js";
import { HeardBar } from "../listen/HeardBar.tsx";
import type { PitchScale } from "../seam/pitch-scale.ts";
import { SeamRow } from "../seam/SeamRow.tsx";
import { VoiceRow } from "../singing/VoiceRow.tsx";
import { BarWriter } from "./BarWriter.tsx";
import { ChordRow } from "./ChordRow.tsx";
import { useDesk } from "./desk.ts";
import { createDrawn, DrawnProvider, whenNear } from "./drawing.ts";
import { LaneRow } from "./LaneRow.tsx";
import { createUnhurried } from "./unhurried.ts";

/** `perLine` columns, of which the last line of a section may leave some empty. */
export function LineView(props: {
  readonly section: Section;
  readonly bars: readonly Bar[];
  readonly perLine: number;
  readonly scale: PitchScale;
  readonly isPrinted: boolean;
}) {
  const desk = useDesk();
  const writing = createMemo(() => props.bars.find((bar) => bar.id === desk.writing()));
  // Every line has the same scale, and a new one redraws them all: those near the window first.
  const [isNear, setNear] = createSignal(false);
  const scale = createUnhurried(() => props.scale, isNear);
  const isDrawn = createDrawn(isNear, () => props.isPrinted);
  return (
    <div
      class="line"
      ref={whenNear(setNear)}
      data-line
      role="rowgroup"
      style={{ "--columns": props.perLine, "--filled": props.bars.length }}
    >
      <ChordRow section={props.section} bars={props.bars} />
      <Show when={writing()} keyed>
        {(bar) => (
          <div role="row">
            <div role="gridcell">
              <BarWriter section={props.section} bar={bar} />
            </div>
          </div>
        )}
      </Show>
      <DrawnProvider value={isDrawn}>
        <LaneRow lane="upper" bars={props.bars} />
        <SeamRow section={props.section} bars={props.bars} scale={scale()} />
        <LaneRow lane="lower" bars={props.bars} />
      </DrawnProvider>
      <VoiceRow bars={props.bars} />
      <HeardBar bars={props.bars} />
    </div>
  );
}
