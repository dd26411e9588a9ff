/** What is asked of the fit: whose part, which way it leans, which bars, how many answers. */
import type { LaneId, SectionId } from "@halflap/board/board";
import { leaningNames } from "@halflap/fitter/answer";
import { For, Show } from "solid-js";
import { Choice } from "../app/Choice.tsx";
import { otherLane, useDesk } from "../board/desk.ts";
import { laneOwner } from "../board/owner.ts";
import { boardWords } from "../words/board.ts";
import { fitWords, leaningWords } from "../words/fit.ts";
import type { FitState } from "./create-fitting.ts";
import { answerCounts, type FitAsk, type Whose } from "./fit-ask.ts";

const extents = ["whole", "some"] as const;
const extentWords = { whole: fitWords.wholeTune, some: fitWords.someSections };

/** My own part stands first. */
export function AskFields(props: { readonly fit: FitState }) {
  const desk = useDesk();
  const around = (lane: LaneId) => {
    const own = desk.session.ownLane();
    const [here, there] = [nameOf(lane), nameOf(otherLane(lane))];
    if (own === lane) return fitWords.mineAround(there);
    return own === undefined ? fitWords.around(here, there) : fitWords.aroundMine(here);
  };
  const nameOf = (lane: LaneId) => {
    const owner = laneOwner(desk.session, lane)?.name;
    return owner === undefined
      ? boardWords.theLane(boardWords.lanesShort[lane])
      : fitWords.of(owner);
  };
  const order = (): readonly Whose[] => {
    const first = desk.session.ownLane() ?? "upper";
    return [first, "both", otherLane(first)];
  };
  const words = () => ({ upper: around("upper"), lower: around("lower"), both: fitWords.both });
  const chooseLeaning = (text: string) => {
    const leaning = leaningNames.find((each) => each === text);
    if (leaning !== undefined) props.fit.change({ leaning });
  };
  return (
    <div class="fit-ask">
      <Choice
        label={fitWords.whose}
        options={order()}
        words={words()}
        chosen={props.fit.ask().whose}
        onChoose={(whose) => props.fit.change({ whose })}
      />
      <details class="fit-fold">
        <summary class="small">
          <span class="strong">{fitWords.how}</span>
          <span class="soft">{howWords(props.fit.ask())}</span>
        </summary>
        <div class="fit-fields">
          <div class="fit-row">
            <label>
              <span class="label small">{fitWords.leaning}</span>
              <select
                class="field"
                value={props.fit.ask().leaning}
                aria-describedby="fit-leaning"
                onChange={(event) => chooseLeaning(event.currentTarget.value)}
              >
                <For each={leaningNames}>
                  {(name) => <option value={name}>{leaningWords[name].name}</option>}
                </For>
              </select>
            </label>
            <label class="fit-count">
              <span class="label small">{fitWords.howMany}</span>
              <select
                class="field"
                value={String(props.fit.ask().answers)}
                onChange={(event) =>
                  props.fit.change({ answers: Number(event.currentTarget.value) })
                }
              >
                <For each={answerCounts}>{(count) => <option value={count}>{count}</option>}</For>
              </select>
            </label>
          </div>
          <p class="small soft" id="fit-leaning">
            {leaningWords[props.fit.ask().leaning].meaning}
          </p>
          <Extent fit={props.fit} />
        </div>
      </details>
    </div>
  );
}

function howWords({ leaning, answers, sections }: FitAsk): string {
  const where = sections === undefined ? fitWords.wholeTune : fitWords.sections(sections.size);
  return [leaningWords[leaning].name, fitWords.answers(answers), where].join(", ").toLowerCase();
}

/** The whole tune, or sections that are picked. */
function Extent(props: { readonly fit: FitState }) {
  const desk = useDesk();
  const sections = () => props.fit.ask().sections;
  const turn = (section: SectionId) => {
    const next = new Set(sections());
    if (!next.delete(section)) next.add(section);
    props.fit.change({ sections: next });
  };
  const chooseExtent = (extent: "whole" | "some") => {
    const here = desk.slotPlace()?.bar;
    const first = desk.session.board.sections.filter(({ bars }) =>
      bars.some(({ id }) => id === here),
    );
    const some = new Set(first.map(({ id }) => id));
    props.fit.change({ sections: extent === "whole" ? undefined : some });
  };
  return (
    <>
      <Choice
        label={fitWords.bars}
        options={extents}
        words={extentWords}
        chosen={sections() === undefined ? "whole" : "some"}
        onChoose={chooseExtent}
      />
      <Show when={sections()}>
        {(chosen) => (
          <fieldset class="fit-toggles" aria-label={fitWords.someSections}>
            <For each={desk.session.board.sections}>
              {(section) => (
                <button
                  type="button"
                  class="button small"
                  aria-pressed={chosen().has(section.id)}
                  onClick={() => turn(section.id)}
                >
                  {section.name}
                </button>
              )}
            </For>
          </fieldset>
        )}
      </Show>
    </>
  );
}
