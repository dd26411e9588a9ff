/** A section: its name, its lines of bars, and what a player can change about it. */
import "./SectionView.css";
import type { Section } from "@halflap/board/board";
import { createMemo, createSignal, Index, Show } from "solid-js";
import { lazyPart } from "../app/lazy-part.tsx";
import type { PitchScale } from "../seam/pitch-scale.ts";
import { VoiceButton } from "../singing/VoiceButton.tsx";
import { boardWords } from "../words/board.ts";
import { useDesk } from "./desk.ts";
import { LineView } from "./LineView.tsx";
import { linesOf } from "./lines.ts";

const SectionTools = lazyPart(async () => (await import("./SectionTools.tsx")).SectionTools);

/** The id by which the form's road map jumps here. */
export function sectionElementId(section: Section): string {
  return `section-${section.id}`;
}

/** The id of its heading, which names its grid and takes the focus of a jump. */
export function sectionNameId(section: Section): string {
  return `${sectionElementId(section)}-name`;
}

/** `index` is its place in the chart. */
export function SectionView(props: {
  readonly section: Section;
  readonly index: number;
  readonly perLine: number;
  readonly scale: PitchScale;
  readonly isPrinted: boolean;
}) {
  const desk = useDesk();
  const [isChanging, setChanging] = createSignal(false);
  const lines = createMemo(() => linesOf([...props.section.bars], props.perLine));
  const lender = () =>
    desk.session.board.sections.find((each) => each.id === props.section.borrows)?.name;
  let changer: HTMLButtonElement | undefined;
  const finish = () => {
    setChanging(false);
    changer?.focus();
  };
  const addBar = () =>
    desk.write(desk.session.chart.addBar(props.section.id, props.section.bars.length, ""));
  return (
    <section class="section" id={sectionElementId(props.section)}>
      <header class="section-head">
        <h2 class="heading" id={sectionNameId(props.section)} tabindex="-1">
          {props.section.name}
        </h2>
        <span class="section-count small soft">
          {boardWords.bars(props.section.bars.length)}
          <Show when={lender()}>{(name) => ` · ${boardWords.borrows(name())}`}</Show>
        </span>
        <VoiceButton section={props.section} />
        <Show when={desk.session.mayEditChart()}>
          <button type="button" class="button bare small" onClick={addBar}>
            {boardWords.addBar}
          </button>
          <button
            ref={changer}
            type="button"
            class="button bare small"
            aria-expanded={isChanging()}
            aria-label={boardWords.sectionMenu(props.section.name)}
            onClick={() => setChanging(!isChanging())}
          >
            {boardWords.change}
          </button>
        </Show>
      </header>
      <Show when={isChanging() && desk.session.mayEditChart()}>
        <SectionTools
          section={props.section}
          index={props.index}
          onDone={finish}
          onClose={() => setChanging(false)}
        />
      </Show>
      <Show
        when={props.section.bars.length > 0}
        fallback={<p class="section-empty soft">{boardWords.emptySection}</p>}
      >
        <div
          class="lines"
          role="grid"
          aria-labelledby={sectionNameId(props.section)}
          data-columns={props.perLine}
        >
          <Index each={lines()}>
            {(bars) => (
              <LineView
                section={props.section}
                bars={bars()}
                perLine={props.perLine}
                scale={props.scale}
                isPrinted={props.isPrinted}
              />
            )}
          </Index>
        </div>
      </Show>
    </section>
  );
}
