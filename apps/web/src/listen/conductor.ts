/**
 * Leads the player through the tune: a bar ahead and no further, so that whatever is changed while
 * it plays is heard at once. The audio's own clock drives it; it has no timer.
 */
import type { BarId, Board, SectionId } from "@halflap/board/board";
import { tailSeconds } from "@halflap/sound/offline";
import { makeTimeline } from "@halflap/timeline/passages";
import { usualSwing } from "@halflap/timeline/swing";
import { type Aim, beginning, type Entry, goingOn, samplesPerTickOf, type Tune } from "./entry.ts";
import { orderOfPlay, type Stretch } from "./order-of-play.ts";
import { runningStart, sampleAt } from "./play-clock.ts";
import type { PlayerOrder, Report, Request, Wishes } from "./player-messages.ts";
import { countInScore, makeScore, type Notes, notesOf, type Placed, type Score } from "./score.ts";
import { boardThatReaches, isInForm, sectionMeant, standingLoop } from "./sections-alone.ts";
import { isTimedAs, joining } from "./together/joining.ts";
import type { Meeting } from "./together/meeting.ts";
import { isTried, slotSpan, type Trial, triedBoard } from "./trial.ts";

/** Seconds between an order and the first sample it may change: time for it to arrive. */
export const marginSeconds = 0.07;
/** A bar is ordered this long before it starts. */
const aheadSeconds = 0.8;

type Going = Entry & {
  /** What it plays together with others; undefined alone. */
  readonly meeting: Meeting | undefined;
  /** Whether its bars no longer come as the meeting says. */
  readonly isAdrift: boolean;
  readonly score: Score;
  /** The bar to order next, and its round from the anchor on. */
  next: { readonly index: number; readonly round: number };
};

/** A tune as it is to be played from now on. */
type Ready = {
  readonly tune: Tune | undefined;
  readonly aim: Aim;
  readonly notes?: { readonly stretch: Stretch; readonly byBar: Notes };
};

/** At rest at first; the board comes with the first requests. */
export class Conductor {
  readonly #sampleRate: number;
  readonly #order: (order: PlayerOrder) => void;
  readonly #report: (report: Report) => void;
  readonly #timelineOf = makeTimeline();
  #fields: Partial<Board> = {};
  #wishes: Wishes = { tempoFactor: 1, countsIn: true, loop: undefined, swing: usualSwing };
  #position = 0;
  #generation = 0;
  #going: Going | undefined;
  /** What is tried, until something else is played. */
  #trial: Trial | undefined;
  /** What is played together, until something else is played. */
  #meeting: Meeting | undefined;
  /** Asked for, and begun with the next word of the player. */
  #asked: { readonly bar: BarId | undefined } | undefined;
  /** A section that the form left out when it was asked for: it is played on its own. */
  #alone: SectionId | undefined;
  #isStale = false;
  /** Worked out, and taken up with the player's next word. */
  #ready: Ready | undefined;

  constructor(
    sampleRate: number,
    order: (order: PlayerOrder) => void,
    report: (report: Report) => void,
  ) {
    this.#sampleRate = sampleRate;
    this.#order = order;
    this.#report = report;
  }

  /** Takes a request; what follows from it is done when the player is heard next. */
  ask(request: Request): void {
    switch (request.kind) {
      case "board":
        this.#fields = { ...this.#fields, ...request.fields };
        this.#isStale = true;
        return;
      case "wishes":
        this.#wishes = request.wishes;
        this.#isStale = true;
        return;
      case "play":
        this.#turnTo(undefined, request.bar);
        return;
      case "try":
        this.#turnTo(request.trial, request.trial.bars.from);
        return;
      case "meet":
        this.#meet(request.meeting);
        return;
      case "stop":
        this.#halt("asked");
    }
  }

  /** So many samples were given: orders what is due. */
  hear(sample: number): void {
    this.#position = sample;
    const isDue = this.#asked !== undefined || (this.#going !== undefined && this.#isStale);
    if (this.#ready !== undefined) this.#take(this.#ready);
    // What takes its time is done first, and the sample to start from is chosen afterwards.
    else if (isDue) this.#ready = this.#prepare();
    this.#pump(sample);
    if (this.#going !== undefined && this.#isOver(this.#going)) this.#halt("end");
  }

  #turnTo(trial: Trial | undefined, bar: BarId | undefined): void {
    if (this.#going !== undefined) this.#order({ kind: "stop" });
    this.#going = undefined;
    this.#ready = undefined;
    this.#trial = trial;
    this.#meeting = undefined;
    this.#asked = { bar };
  }

  /** What is played together already goes on until the new word holds. */
  #meet(meeting: Meeting): void {
    if (this.#going?.meeting === undefined) this.#turnTo(undefined, undefined);
    this.#meeting = meeting;
    this.#isStale = true;
  }

  /** What goes round may be gone: then the tune goes on. */
  #aim(): Aim {
    const { sections = [] } = this.#fields;
    if (this.#meeting !== undefined) {
      const { tempoFactor, loop } = this.#meeting;
      return { ...this.#wishes, tempoFactor, loop, countsIn: false, into: 0 };
    }
    if (this.#trial === undefined) {
      return { ...this.#wishes, loop: standingLoop({ sections }, this.#wishes.loop), into: 0 };
    }
    const { bars, slot, countsIn = false } = this.#trial;
    const into = slotSpan({ sections }, slot)?.from ?? 0;
    return { ...this.#wishes, countsIn, loop: bars, into };
  }

  #prepare(): Ready {
    this.#isStale = false;
    const aim = this.#aim();
    const tune = this.#tune(aim);
    const ready = { tune, aim };
    const entry = this.#entryInto(ready);
    if (!tune || !entry || entry === "over") return ready;
    const { stretch } = entry.plan;
    return { ...ready, notes: { stretch, byBar: this.#notes(tune, stretch, aim) } };
  }

  /** Where it begins, or how it goes on from the next moment. */
  #entryInto({ tune, aim }: Ready): Entry | "over" | undefined {
    const cut = this.#position + Math.round(marginSeconds * this.#sampleRate);
    const time = { cut, sampleRate: this.#sampleRate };
    const [meeting, going] = [this.#meeting, this.#going];
    if (tune === undefined) return undefined;
    if (meeting !== undefined && !this.#isAdrift(tune)) {
      const before = going && { plan: going.plan, isSameMeeting: going.meeting === meeting };
      return joining(tune, meeting, before, time);
    }
    if (this.#asked !== undefined) return beginning(tune, this.#asked.bar, aim, time);
    return this.#going && goingOn(tune, this.#going, aim, time);
  }

  /**
   * Whether bars came, went or changed their length under the meeting that is played: then it goes
   * on as it would alone, until everybody is told where it stands.
   */
  #isAdrift(tune: Tune): boolean {
    const going = this.#going;
    if (going?.meeting === undefined || going.meeting !== this.#meeting) return false;
    return going.isAdrift || !isTimedAs(going.plan, tune, going.meeting, this.#sampleRate);
  }

  #take(ready: Ready): void {
    const entry = this.#entryInto(ready);
    this.#ready = undefined;
    this.#asked = undefined;
    if (entry === "over") {
      if (this.#going === undefined) this.#halt("end");
      return;
    }
    if (ready.tune && entry) this.#enter(ready.tune, entry, ready);
    else this.#halt("nothing");
  }

  /** What was ordered from the cut on gives way to the new plan. */
  #enter(tune: Tune, entry: Entry, { aim, notes }: Ready): void {
    const { plan, index, counted, cut } = entry;
    const { stretch } = plan;
    const { tempoFactor } = aim;
    this.#generation += 1;
    this.#order({ kind: "replace", from: cut, generation: this.#generation });
    const how = { tempoFactor, sampleRate: this.#sampleRate };
    if (counted > 0) this.#place(countInScore(tune, entry, how), cut);
    const isKnown = notes !== undefined && isSameStretch(notes.stretch, stretch);
    const byBar = isKnown ? notes.byBar : this.#notes(tune, stretch, aim);
    const isAdrift = this.#isAdrift(tune);
    const score = makeScore(plan, byBar);
    const next = { index, round: 0 };
    this.#going = { ...entry, meeting: this.#meeting, isAdrift, score, next };
    this.#pump(Math.max(cut, plan.anchor.sample));
    this.#report({ kind: "plan", plan });
  }

  /** Orders every bar that starts soon, but nothing that starts before the cut. */
  #pump(cut: number): void {
    const going = this.#going;
    if (going === undefined) return;
    const { plan, score } = going;
    const { first, last, loops } = plan.stretch;
    const due = this.#position + aheadSeconds * this.#sampleRate;
    while (going.next.index <= last) {
      const { index, round } = going.next;
      if (sampleAt(plan.anchor, runningStart(plan, going.next)) > due) return;
      this.#place(score(going.next), cut);
      const wraps = loops && index === last;
      going.next = wraps ? { index: first, round: round + 1 } : { index: index + 1, round };
    }
  }

  #place({ events, origin }: Placed, cut: number): void {
    const isAhead = (start: number) => origin + Math.round(start * this.#sampleRate) >= cut;
    const ahead = events.filter(({ start }) => isAhead(start));
    this.#order({ kind: "events", events: ahead, origin, generation: this.#generation });
  }

  #halt(why: "asked" | "end" | "nothing"): void {
    this.#ready = undefined;
    this.#asked = undefined;
    this.#going = undefined;
    this.#meeting = undefined;
    this.#order({ kind: "stop" });
    this.#report({ kind: "stopped", why });
  }

  #isOver({ plan, next }: Going): boolean {
    if (next.index <= plan.stretch.last) return false;
    const last = plan.bars[plan.stretch.last];
    const span = slotSpan({ sections: this.#fields.sections ?? [] }, this.#trial?.slot);
    const length = span?.to ?? last?.length ?? 0;
    const end = sampleAt(plan.anchor, (last?.start ?? 0) + length);
    return this.#position > end + tailSeconds * this.#sampleRate;
  }

  #tune({ loop, swing }: Aim): Tune | undefined {
    if (!isWhole(this.#fields)) return undefined;
    const asked = this.#asked;
    if (asked !== undefined || loop !== undefined || this.#meeting !== undefined) {
      const meant = sectionMeant(this.#fields, loop, asked?.bar);
      this.#alone = meant === undefined || isInForm(this.#fields, meant) ? undefined : meant;
    }
    const reached = boardThatReaches(this.#fields, this.#alone);
    const board = this.#trial ? triedBoard(reached, this.#trial) : reached;
    const timeline = this.#timelineOf(board, "keep", swing);
    return { board, timeline, bars: orderOfPlay(timeline) };
  }

  /** Of a trial only what belongs to it. */
  #notes(tune: Tune, stretch: Stretch, { tempoFactor }: Aim): Notes {
    const all = notesOf(tune, stretch, tempoFactor);
    const trial = this.#trial;
    if (trial === undefined) return all;
    const span = slotSpan(tune.board, trial.slot);
    const tick = samplesPerTickOf(tune.board, { tempoFactor }, 1);
    const times = span && { from: span.from * tick, to: span.to * tick };
    return all.map((events) => events.filter((event) => isTried(trial, times, event)));
  }
}

function isWhole(fields: Partial<Board>): fields is Board {
  return fields.sections !== undefined && fields.form !== undefined && fields.lanes !== undefined;
}

function isSameStretch(a: Stretch, b: Stretch): boolean {
  return a.first === b.first && a.last === b.last && a.loops === b.loops;
}
