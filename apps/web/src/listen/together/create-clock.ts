/** Keeps the page's clock agreed with the server's: rounds of questions, soon rare. */
import {
  type Agreement,
  agree,
  type Ping,
  pingsPerRound,
  type Reckoning,
  reckon,
  roundsMax,
} from "@halflap/wire/agreement";
import type { NodesApart } from "@halflap/wire/together";
import {
  type Accessor,
  createEffect,
  createMemo,
  createSignal,
  on,
  onCleanup,
  untrack,
} from "solid-js";
import type { TogetherWire } from "../../session/together-wire.ts";

/** Between two questions of a round. */
const pingEveryMs = 50;
/** After the last question of a round: what is slower than this helps nobody. */
const answerMaxMs = 400;
/** From one round to the next: soon at first, then only to follow the drift. */
const restsMs = [500, 2_000, 5_000, 20_000] as const;
/** With so many answers the first round is good for something before it is over. */
const enoughPings = 8;

/** An agreement with a server that may be one of several. */
export type SharedAgreement = Agreement & {
  /** Pages at others can't be reached. */
  readonly isCutOff: boolean;
};

/** What the server doubts of its own time, a page doubts too. */
export function shared(agreement: Agreement, nodes: NodesApart | undefined): SharedAgreement {
  const doubtMs = typeof nodes === "object" ? nodes.withinMs : 0;
  const withinMs = agreement.withinMs + doubtMs;
  return { ...agreement, withinMs, isCutOff: nodes === "cut-off" };
}

/** The agreement as it stands; undefined while the server is away, and a moment after. */
export function createClock(
  wire: Accessor<TogetherWire>,
  isAlong: Accessor<boolean>,
): Accessor<SharedAgreement | undefined> {
  const [agreement, setAgreement] = createSignal<SharedAgreement>();
  // Told once, whatever else is told of the line meanwhile.
  const isOpen = createMemo(() => wire().isOpen());
  createEffect(() => {
    const line = wire();
    setAgreement(undefined);
    // Another server's clock, or the same one's after a start, has nothing to do with the last.
    if (isOpen()) onCleanup(keepAsking(line, () => untrack(isAlong), setAgreement));
  });
  // The server ends what nobody hears, so it is told at once.
  createEffect(on(isAlong, (now) => untrack(wire).askTime(now), { defer: true }));
  return agreement;
}

/** Asks until what comes back is called. */
function keepAsking(
  line: TogetherWire,
  isAlong: () => boolean,
  onAgreed: (agreement: SharedAgreement | undefined) => void,
): () => void {
  const rounds: Reckoning[] = [];
  let pings: Ping[] = [];
  let nodes: NodesApart | undefined;
  let done = 0;
  let timer: ReturnType<typeof setTimeout>;
  const tell = (agreed: Agreement | undefined) => onAgreed(agreed && shared(agreed, nodes));
  const deaf = line.onTime((answer) => {
    pings.push(answer);
    nodes = answer.nodes;
    const isFirst = rounds.length === 0;
    if (!isFirst || pings.length < enoughPings) return;
    const early = reckon(pings);
    tell(early && agree([early]));
  });
  function ask(left: number): void {
    line.askTime(isAlong());
    timer = setTimeout(
      left > 1 ? () => ask(left - 1) : close,
      left > 1 ? pingEveryMs : answerMaxMs,
    );
  }
  function close(): void {
    const round = reckon(pings);
    pings = [];
    if (round !== undefined) rounds.push(round);
    if (rounds.length > roundsMax) rounds.shift();
    tell(agree(rounds));
    const restMs = restsMs[Math.min(done, restsMs.length - 1)];
    done += 1;
    timer = setTimeout(() => ask(pingsPerRound), restMs);
  }
  ask(pingsPerRound);
  return () => {
    clearTimeout(timer);
    deaf();
  };
}
