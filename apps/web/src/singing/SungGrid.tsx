/** The section's half beats, bar by bar: pressed where the voice sings. */
import { createMemo, createSignal, Index, Show } from "solid-js";
import { useDesk } from "../board/desk.ts";
import { singingWords } from "../words/singing.ts";
import type { SectionVoice } from "./section-voice.ts";
import { type Cell, cellsOf, changeOf } from "./sung-cells.ts";

/** Pressing a half beat turns it; pulling on turns all on the way alike, as one step. */
export function SungGrid(props: { readonly voice: SectionVoice }) {
  const desk = useDesk();
  const bars = () => props.voice.section()?.bars ?? [];
  const rows = createMemo(() => cellsOf(bars(), desk.session.board.phrases, props.voice.beat()));
  let grid: HTMLDivElement | undefined;
  const [pulled, setPulled] = createSignal<{ readonly from: Cell; readonly to: Cell }>();
  const isSinging = () => pulled()?.from.sung !== "all";
  const stretch = () => {
    const pull = pulled();
    if (pull === undefined) return undefined;
    return {
      start: Math.min(pull.from.start, pull.to.start),
      end: Math.max(pull.from.end, pull.to.end),
    };
  };
  const shown = (cell: Cell): Cell["sung"] => {
    const here = stretch();
    const isPulled = here !== undefined && cell.start >= here.start && cell.end <= here.end;
    return isPulled ? (isSinging() ? "all" : "none") : cell.sung;
  };
  const turn = (here: { readonly start: number; readonly end: number }, isSung: boolean) => {
    const { phrases } = desk.session.board;
    const change = changeOf(bars(), phrases, here, isSung, desk.session.makeId);
    desk.session.singing.rewritePhrases(change.put, change.remove);
  };
  const letGo = () => {
    const here = stretch();
    const isSung = isSinging();
    setPulled(undefined);
    if (here !== undefined) turn(here, isSung);
  };
  // The pull is captured, so that its events do not say over which cell it is.
  const under = (event: PointerEvent): Cell | undefined => {
    const found = document.elementFromPoint(event.clientX, event.clientY);
    const start = Number(found?.closest("[data-start]")?.getAttribute("data-start") ?? Number.NaN);
    return rows()
      .flat()
      .find((cell) => cell.start === start);
  };
  const pullOn = (event: PointerEvent) => {
    // Let go where nobody saw it.
    if (event.buttons === 0) return letGo();
    const pull = pulled();
    const to = pull && under(event);
    if (pull !== undefined && to !== undefined) setPulled({ from: pull.from, to });
  };
  const take = (event: PointerEvent, cell: Cell) => {
    if (!desk.session.mayEditChart() || event.button !== 0) return;
    event.preventDefault();
    grid?.setPointerCapture(event.pointerId);
    setPulled({ from: cell, to: cell });
  };
  const press = (event: MouseEvent, cell: Cell) => {
    // A press by key or by a reader comes without a pointer before it.
    if (event.detail === 0 && desk.session.mayEditChart()) turn(cell, cell.sung !== "all");
  };
  return (
    <section class="sung" aria-labelledby="sung-title">
      <h3 id="sung-title" class="label">
        {singingWords.where}
      </h3>
      <div
        ref={grid}
        class="sung-rows"
        onPointerMove={pullOn}
        onPointerUp={letGo}
        onPointerCancel={() => setPulled(undefined)}
      >
        <Index each={rows()}>
          {(row) => (
            <fieldset class="sung-row">
              <legend class="sung-bar small soft">
                <span class="spoken">{singingWords.barRow(row()[0]?.bar.number ?? 0)}</span>
                <span aria-hidden="true">{row()[0]?.bar.number}</span>
              </legend>
              <Index each={row()}>
                {(cell) => (
                  <button
                    type="button"
                    class="sung-cell"
                    data-start={cell().start}
                    data-sung={shown(cell())}
                    data-half={cell().isSecondHalf ? "" : undefined}
                    aria-pressed={shown(cell()) === "part" ? "mixed" : shown(cell()) === "all"}
                    aria-disabled={!desk.session.mayEditChart()}
                    aria-label={singingWords.cell(
                      cell().bar.number,
                      cell().beat,
                      cell().isSecondHalf,
                    )}
                    onPointerDown={(event) => take(event, cell())}
                    onClick={(event) => press(event, cell())}
                  >
                    {cell().isSecondHalf ? "" : cell().beat}
                  </button>
                )}
              </Index>
            </fieldset>
          )}
        </Index>
      </div>
      <Show when={desk.session.mayEditChart()}>
        <p class="small soft">{singingWords.whereHint}</p>
      </Show>
    </section>
  );
}
