/** What goes round. */
import type { SectionId } from "@halflap/board/board";
import { createUniqueId, For, Show } from "solid-js";
import { useDesk } from "../board/desk.ts";
import { listenWords } from "../words/listen.ts";
import { barOfNumber, barWithSection, restOfSection } from "./bar-names.ts";
import { useListening } from "./create-listening.ts";
import type { Loop } from "./order-of-play.ts";

type BarsLoop = Extract<Loop, { kind: "bars" }>;

/** A section, or from one bar to another, which start as the rest of the section one stands in. */
export function LoopFields() {
  const desk = useDesk();
  const listening = useListening();
  const id = createUniqueId();
  const loop = () => listening.wishes().loop;
  const bars = (): BarsLoop | undefined => {
    const now = loop();
    return now?.kind === "bars" ? now : undefined;
  };
  const chosen = () => {
    const now = loop();
    return now?.kind === "section" ? `section ${now.section}` : (now?.kind ?? "none");
  };
  const loopOf = (value: string): Loop | undefined => {
    const { board } = desk.session;
    if (value === "bars") return restOfSection(board, desk.place()?.bar);
    const section = board.sections.find((each) => `section ${each.id}` === value);
    return section && { kind: "section", section: section.id satisfies SectionId };
  };
  return (
    <div class="listen-loop">
      <label class="small strong" for={id}>
        {listenWords.loop}
      </label>
      <select
        id={id}
        class="field"
        value={chosen()}
        onChange={(event) => listening.wish({ loop: loopOf(event.currentTarget.value) })}
      >
        <option value="none" selected={chosen() === "none"}>
          {listenWords.noLoop}
        </option>
        <For each={desk.session.board.sections}>
          {(section) => (
            <option value={`section ${section.id}`} selected={chosen() === `section ${section.id}`}>
              {section.name}
            </option>
          )}
        </For>
        <option value="bars" selected={chosen() === "bars"}>
          {listenWords.bars}
        </option>
      </select>
      <Show when={bars()}>{(now) => <BarNumbers loop={now()} />}</Show>
    </div>
  );
}

/** The last bar is never before the first: whichever is moved takes the other along. */
function BarNumbers(props: { readonly loop: BarsLoop }) {
  const desk = useDesk();
  const listening = useListening();
  const numberOf = (end: "from" | "to") =>
    barWithSection(desk.session.board, props.loop[end])?.bar.number ?? 1;
  const move = (end: "from" | "to", input: HTMLInputElement) => {
    const bar = barOfNumber(desk.session.board, input.valueAsNumber || numberOf(end));
    if (bar === undefined) return;
    const crosses = end === "from" ? bar.number > numberOf("to") : bar.number < numberOf("from");
    const ends = { from: props.loop.from, to: props.loop.to, [end]: bar.id };
    const moved = crosses ? { from: bar.id, to: bar.id } : ends;
    listening.wish({ loop: { kind: "bars", ...moved } });
    input.value = String(bar.number);
  };
  return (
    <span class="listen-bars">
      <For each={["from", "to"] as const}>
        {(end) => (
          <label class="small">
            {end === "from" ? listenWords.fromBar : listenWords.toBar}
            <input
              class="field"
              type="number"
              inputmode="numeric"
              min={1}
              value={numberOf(end)}
              onChange={(event) => move(end, event.currentTarget)}
            />
          </label>
        )}
      </For>
    </span>
  );
}
