/** The grips suggested for the slot, in order of motion, and the wishes that they follow. */
import "./Candidates.css";
import { sameGrip } from "@halflap/theory/grip";
import type { RankedGrip } from "@halflap/theory/rank";
import { createEffect, createMemo, createSignal, For, on, Show } from "solid-js";
import type { SlotPlace } from "../board/desk.ts";
import { neckWords } from "../words/neck.ts";
import { afterPaint, createGrowing } from "./after-paint.ts";
import { CandidateCard } from "./CandidateCard.tsx";
import { candidatesFor, clearOf } from "./candidates.ts";
import { FilterFields } from "./FilterFields.tsx";
import { everydayFilter, type Filter } from "./filter.ts";
import type { NeckSlot } from "./neck-slot.ts";

const page = 12;

/** What was found, and for which slot. */
type Answer = Pick<SlotPlace, "lane" | "slot"> & { readonly found: readonly RankedGrip[] };

/** The search runs after the selection is painted. */
export function Candidates(props: { readonly slot: NeckSlot }) {
  const [filter, setFilter] = createSignal<Filter>(everydayFilter(props.slot.hasBass()));
  const [shown, setShown] = createSignal(page);
  const search = createMemo(() => {
    const chord = props.slot.chord();
    const { before, after } = props.slot.neighbours();
    return {
      chord,
      setup: props.slot.setup(),
      hasBass: props.slot.hasBass(),
      filter: filter(),
      before: before?.grip,
      after: after?.grip,
    };
  });
  const [answer, setAnswer] = createSignal<Answer>();
  createEffect(() => {
    const { chord, ...rest } = search();
    const { lane, slot } = props.slot.place();
    afterPaint(() =>
      setAnswer({ lane, slot, found: chord ? candidatesFor({ chord, ...rest }) : [] }),
    );
  });
  /** What was found for another slot is not to be pressed here. */
  const candidates = createMemo(() => {
    const { lane, slot } = props.slot.place();
    const last = answer();
    if (last?.lane !== lane || last.slot !== slot) return undefined;
    if (!filter().clear) return last.found;
    return clearOf(last.found, props.slot.setup(), props.slot.others());
  });
  createEffect(on([() => props.slot.place(), filter], () => setShown(page)));
  const found = () => candidates() ?? [];
  const drawn = createGrowing(answer, () => Math.min(shown(), found().length));
  const left = () => found().length - shown();
  return (
    <section class="candidates" aria-label={neckWords.suggestions}>
      <Show when={props.slot.chord()} fallback={<NoChord slot={props.slot} />}>
        <FilterFields
          filter={filter()}
          whose={props.slot.whoseOther()}
          count={candidates()?.length}
          onChange={setFilter}
        />
        <Show
          when={found().length > 0 || candidates() === undefined}
          fallback={<NothingFits onReset={() => setFilter(everydayFilter(props.slot.hasBass()))} />}
        >
          <ul class="candidate-list">
            <For each={found().slice(0, drawn())}>
              {(candidate) => (
                <CandidateCard
                  candidate={candidate}
                  slot={props.slot}
                  isChosen={isChosen(candidate, props.slot)}
                />
              )}
            </For>
          </ul>
          <Show when={left() > 0}>
            <button type="button" class="button" onClick={() => setShown(shown() + page * 2)}>
              {neckWords.more(Math.min(left(), page * 2))}
            </button>
          </Show>
        </Show>
      </Show>
    </section>
  );
}

function isChosen(candidate: RankedGrip, slot: NeckSlot): boolean {
  const grip = slot.grip();
  return grip !== undefined && sameGrip(grip, candidate.grip);
}

function NoChord(props: { readonly slot: NeckSlot }) {
  const isRest = () => props.slot.slot()?.chord?.kind === "no-chord";
  return <p class="soft small">{isRest() ? neckWords.restChord : neckWords.notAChord}</p>;
}

function NothingFits(props: { readonly onReset: () => void }) {
  return (
    <p class="soft small">
      {neckWords.noSuggestions}{" "}
      <button type="button" class="button small" onClick={() => props.onReset()}>
        {neckWords.everything}
      </button>
    </p>
  );
}
