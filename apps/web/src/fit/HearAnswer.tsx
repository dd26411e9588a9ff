/** The section one stands in, as it is and as an answer would have it. */
import type { Answer } from "@halflap/fitter/answer";
import { createMemo, createSignal, Show } from "solid-js";
import { useDesk } from "../board/desk.ts";
import { HearButton } from "../listen/HearButton.tsx";
import { fitWords } from "../words/fit.ts";
import { type LaneChange, takingOf } from "./taking.ts";
import { Tick } from "./WishFields.tsx";

/** Both lanes sound; where an answer changes both, my part can be heard in it alone. */
export function HearAnswer(props: {
  readonly answer: Answer;
  readonly along: readonly LaneChange[];
}) {
  const desk = useDesk();
  const changes = createMemo(() => {
    const { ownLane, board } = desk.session;
    const { own, offers } = takingOf(props.answer, props.along, ownLane(), board);
    return [...(own ? [own] : []), ...offers];
  });
  const section = createMemo(() => {
    const { sections } = desk.session.board;
    const here = desk.slotPlace()?.bar;
    const edits = changes().flatMap((change) => change.edits);
    const changed = new Set(edits.flatMap((edit) => (edit.kind === "grip" ? [edit.slot] : [])));
    return (
      sections.find(({ bars }) => bars.some(({ id }) => id === here)) ??
      sections.find(({ bars }) =>
        bars.some(({ slots }) => slots.some(({ id }) => changed.has(id))),
      ) ??
      sections[0]
    );
  });
  const [isAlone, setAlone] = createSignal(false);
  const lane = () => changes()[0]?.lane ?? "upper";
  const bars = () => section()?.bars.map(({ id }) => id) ?? [];
  return (
    <div class="fit-hear">
      <div class="hear-both">
        <HearButton
          words={fitWords.hearNow}
          bars={bars()}
          lane={lane()}
          edits={[]}
          isAlone={isAlone()}
        />
        <HearButton
          words={fitWords.hearThen}
          bars={bars()}
          lane={lane()}
          edits={changes()[0]?.edits ?? []}
          also={changes()[1]}
          isAlone={isAlone()}
        />
        <Show when={changes().length > 1 && !isAlone() && desk.session.ownLane()}>
          <HearButton
            words={fitWords.hearMine}
            bars={bars()}
            lane={lane()}
            edits={changes()[0]?.edits ?? []}
          />
        </Show>
      </div>
      <Tick label={fitWords.hearAlone} on={isAlone()} onTurn={setAlone} />
      <p class="small soft">{fitWords.hearBars(section()?.name ?? "")}</p>
    </div>
  );
}
