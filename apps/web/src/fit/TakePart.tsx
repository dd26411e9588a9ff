/** Taking an answer: my lane in one step that undo takes back, the other's as an offer. */
import type { Answer } from "@halflap/fitter/answer";
import { createMemo, Show } from "solid-js";
import { useDesk } from "../board/desk.ts";
import { laneInSentence, laneOwner } from "../board/owner.ts";
import { boardWords } from "../words/board.ts";
import { fitWords, leaningWords } from "../words/fit.ts";
import type { FitState } from "./create-fitting.ts";
import { barsOfEdits } from "./slot-places.ts";
import { type LaneChange, takingOf, whyNotOffered } from "./taking.ts";

/** Nothing for a listener, and nothing where nothing would change. */
export function TakePart(props: {
  readonly fit: FitState;
  readonly answer: Answer;
  readonly along: readonly LaneChange[];
}) {
  const desk = useDesk();
  const { session } = desk;
  const own = () => (session.lane() === undefined ? undefined : session.ownLane());
  const taking = createMemo(() => takingOf(props.answer, props.along, own(), session.board));
  const trouble = () => whyNotOffered(taking(), session.board.proposals.length);
  const words = () => {
    const { own: mine, offers } = taking();
    const [first] = offers;
    if (first === undefined) return fitWords.takeMine;
    const owner = laneOwner(session, first.lane)?.name;
    if (mine !== undefined) {
      return owner === undefined ? fitWords.takeBothFree : fitWords.takeBoth(owner);
    }
    if (offers.length > 1) return fitWords.offerBoth;
    return owner === undefined
      ? fitWords.offerFree(boardWords.lanesShort[first.lane])
      : fitWords.offer(owner);
  };
  const take = () => {
    const { own: mine, offers } = taking();
    const leaning = props.fit.asked()?.leaning ?? "plain";
    const said: string[] = [];
    for (const change of offers) {
      const text = fitWords.offerWords(
        leaningWords[leaning].name,
        gripCount(change),
        mine !== undefined,
      );
      const bars = barsOfEdits(session.board.sections, change.edits);
      session.proposals.offer(change.lane, text, bars, change.edits);
      said.push(fitWords.offered(laneInSentence(session, change.lane)));
    }
    if (mine !== undefined) {
      session.lane()?.edit(mine.edits);
      said.unshift(fitWords.took(gripCount(mine), otherCount(mine)));
    }
    props.fit.settle(said.join(" "));
    document.querySelector<HTMLElement>(".fit-start")?.focus();
  };
  const isAny = () => taking().own !== undefined || taking().offers.length > 0;
  return (
    <Show when={session.mayEditChart() && isAny()}>
      <Show when={trouble() === undefined} fallback={<p class="small problem">{trouble()}</p>}>
        <button type="button" class="button main fit-take" onClick={take}>
          {words()}
        </button>
      </Show>
    </Show>
  );
}

/** Slots that get a grip, however often it is changed on the way. */
function gripCount({ edits }: LaneChange): number {
  return new Set(edits.flatMap((edit) => (edit.kind === "grip" ? [edit.slot] : []))).size;
}

function otherCount({ edits }: LaneChange): number {
  return edits.filter(({ kind }) => kind !== "grip").length;
}
