/** The fit as the panel knows it: what is asked, how the work goes, what was found and picked. */
import { laneIds } from "@halflap/board/board";
import type { FitProgress, FitResult } from "@halflap/fitter/answer";
import { createEffect, createMemo, createSignal, on, onCleanup } from "solid-js";
import { boardStamp, sameStamp } from "../board/board-stamp.ts";
import type { Desk, SlotPlace } from "../board/desk.ts";
import type { Preview } from "../board/preview.ts";
import { fitWords } from "../words/fit.ts";
import { previewOf } from "./answer-preview.ts";
import { everydayAsk, type FitAsk, requestOf, sameAsk, standingAsk } from "./fit-ask.ts";
import { openFitting } from "./fitting.ts";

/** What takes longer than this says that it is being worked out. */
export const patienceMs = 300;
/** While wishes are being changed the next fit waits for a pause. */
export const pauseMs = 150;

export type FitState = ReturnType<typeof createFitting>;

/** What was answered, to what, and how the board stood then. */
type Outcome = {
  readonly result: FitResult;
  readonly ask: FitAsk;
  readonly stamp: readonly unknown[];
};

/** Asks nothing by itself; a fit of one lane follows its wishes once there was one. */
export function createFitting(desk: Desk, isOpen: () => boolean) {
  const { board } = desk.session;
  const fitting = openFitting(desk.session.feed);
  onCleanup(fitting.close);
  const { ask, chosen, change } = createAsk(desk);
  const [outcome, setOutcome] = createSignal<Outcome>();
  /** What has to be said about how it went: cancelled, failed, taken. */
  const [note, setNote] = createSignal<string>();
  const stamp = createMemo(() => boardStamp(board), [], { equals: sameStamp });
  const work = createWork();
  const picking = createPicking(desk, outcome, isOpen);
  // What is looked at stays what would be taken, whatever is edited meanwhile.
  createEffect(on(stamp, picking.lookAgain, { defer: true }));

  async function run(): Promise<void> {
    const asked = ask();
    const request = requestOf(asked, board);
    if (request === undefined) return;
    setNote(undefined);
    const [began, mine] = [stamp(), work.begin()];
    const end = await fitting.fit(request, (progress) => work.tell(mine, progress));
    if (!work.finish(mine)) return;
    picking.pick(undefined);
    if (end.kind === "done") {
      setOutcome({ result: end.result, ask: asked, stamp: began });
    } else {
      setOutcome(undefined);
      setNote(end.kind === "failed" ? fitWords.failed(end.words) : fitWords.cancelled);
    }
  }
  createFollowing(
    () => [chosen(), board.lanes.upper.wishes, board.lanes.lower.wishes],
    () => isOpen() && outcome() !== undefined && ask().whose !== "both",
    () => void run(),
  );
  return {
    ask,
    change,
    request: createMemo(() => requestOf(ask(), board)),
    run,
    cancel: fitting.cancel,
    why: fitting.why,
    mend: fitting.mend,
    progress: work.progress,
    note,
    result: () => outcome()?.result,
    asked: () => outcome()?.ask,
    /** Whether what was answered is about another board, or another question, than there is now. */
    isStale: () => !isOf(outcome(), ask(), stamp()),
    picked: picking.picked,
    pick: picking.pick,
    /** It was taken: what was answered is about a board that is gone. */
    settle(words: string) {
      picking.pick(undefined);
      setOutcome(undefined);
      setNote(words);
    },
  };
}

/** What was chosen, and what of it can be asked of the board as it is. */
function createAsk({ session }: Desk) {
  const [chosen, choose] = createSignal(everydayAsk(session.ownLane()));
  // A section that is removed is asked for no more, until it is brought back.
  const ask = createMemo(() => standingAsk(chosen(), session.board), chosen(), { equals: sameAsk });
  return { chosen, ask, change: (part: Partial<FitAsk>) => choose({ ...chosen(), ...part }) };
}

/** Whether what was found, if anything, answers this question about this board. */
function isOf(found: Outcome | undefined, ask: FitAsk, stamp: readonly unknown[]): boolean {
  return found === undefined || (found.stamp === stamp && found.ask === ask);
}

/** One piece of work at a time counts, the last begun; it is shown once it takes long. */
function createWork() {
  const [progress, setProgress] = createSignal<FitProgress>();
  let current = 0;
  let patience: ReturnType<typeof setTimeout> | undefined;
  let latest: FitProgress = { done: 0, words: fitWords.working };
  onCleanup(() => clearTimeout(patience));
  return {
    /** undefined while nobody needs to be told. */
    progress,
    begin(): number {
      current += 1;
      latest = { done: 0, words: fitWords.working };
      clearTimeout(patience);
      patience = setTimeout(() => setProgress(latest), patienceMs);
      return current;
    },
    tell(which: number, next: FitProgress): void {
      if (which !== current) return;
      latest = next;
      if (progress() !== undefined) setProgress(next);
    },
    /** Whether it still counts. */
    finish(which: number): boolean {
      if (which !== current) return false;
      clearTimeout(patience);
      setProgress(undefined);
      return true;
    },
  };
}

/** The answer that is looked at on the board, until it is put away there or the panel closes. */
function createPicking(desk: Desk, outcome: () => Outcome | undefined, isOpen: () => boolean) {
  const [pickedId, setPickedId] = createSignal<string>();
  const picked = createMemo(() => {
    const result = outcome()?.result;
    if (result?.kind !== "answers") return undefined;
    return result.answers.find(({ id }) => id === pickedId());
  });
  const previewNow = () => {
    const answer = picked();
    return answer && previewOf(answer, desk.session.board);
  };
  const pick = (id: string | undefined) => {
    setPickedId(id);
    const preview = previewNow();
    desk.setPreview(preview);
    const first = preview && firstTried(preview, desk);
    if (first !== undefined) desk.reveal(first);
  };
  createEffect(
    on(desk.preview, (preview) => preview === undefined && setPickedId(undefined), {
      defer: true,
    }),
  );
  createEffect(on(isOpen, (open) => !open && pick(undefined), { defer: true }));
  onCleanup(() => desk.setPreview(undefined));
  return { picked, pick, lookAgain: () => picked() && desk.setPreview(previewNow()) };
}

/** Where the eye goes first: the place one stands on where it would change, else the first. */
function firstTried(preview: Preview, desk: Desk): SlotPlace | undefined {
  const here = desk.slotPlace();
  if (here && preview[here.lane]?.grips.has(here.slot)) return here;
  const { sections } = desk.session.board;
  for (const bar of sections.flatMap(({ bars }) => bars)) {
    for (const lane of laneIds) {
      const slot = bar.slots.find(({ id }) => preview[lane]?.grips.has(id));
      if (slot !== undefined) return { kind: "slot", lane, bar: bar.id, slot: slot.id };
    }
  }
  return undefined;
}

/** Acts on changes of a source where it is wanted, once they pause. */
function createFollowing(source: () => unknown, isWanted: () => boolean, act: () => void): void {
  createEffect(
    on(
      source,
      () => {
        if (!isWanted()) return;
        const pause = setTimeout(act, pauseMs);
        onCleanup(() => clearTimeout(pause));
      },
      { defer: true },
    ),
  );
}
