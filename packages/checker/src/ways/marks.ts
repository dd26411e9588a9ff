/** Softer, damped or stopped: marks on bars that take the edge off. */
import { type Dynamic, dynamics } from "@halflap/board/playing";
import { barWords, type Candidate, type WayOutMaker } from "./candidate.ts";

/** The palm lies on the strings in the bars of the finding. */
export const palmMutes: WayOutMaker = ({ board, lane, bars }) => {
  const open = bars.filter((bar) => !board.lanes[lane].palmMutes.has(bar.id));
  if (open.length === 0) return [];
  return [
    {
      kind: "mute",
      lane,
      edits: open.map((bar) => ({ kind: "palm-mute", bar: bar.id, on: true })),
      words: `Palm on the strings in ${barWords(open)}`,
      loss: 0,
    },
  ];
};

/** Nothing rings on through the change. */
export const noRinging: WayOutMaker = ({ board, lane, bars }) => {
  const ringing = bars.filter((bar) => board.lanes[lane].letRings.has(bar.id));
  if (ringing.length === 0) return [];
  return [
    {
      kind: "mute",
      lane,
      edits: ringing.map((bar) => ({ kind: "let-ring", bar: bar.id, on: false })),
      words: `Stop the strings at the change in ${barWords(ringing)}`,
      loss: 0,
    },
  ];
};

/** Another loudness for the bars of the finding; after them it is as before. */
export const loudness: WayOutMaker = ({ board, lane, bars, passages }) => {
  const [first] = bars;
  const last = bars.at(-1);
  const played = passages[0]?.passage.bars ?? [];
  const at = (id: string | undefined) => played.findIndex((each) => each.bar.id === id);
  const now = played[at(first?.id)]?.lanes[lane].dynamic;
  const later = played[at(last?.id)]?.lanes[lane].dynamic;
  const next = played[at(last?.id) + 1]?.bar;
  if (first === undefined || last === undefined) return [];
  const own = board.lanes[lane].dynamics;
  const isReset = next !== undefined && !own.has(next.id) && later !== undefined;
  const inner = bars.slice(1).filter((bar) => own.has(bar.id));
  return nearest(now).map(
    (dynamic): Candidate => ({
      kind: "dynamic",
      lane,
      edits: [
        { kind: "dynamic", bar: first.id, dynamic },
        ...inner.map((bar) => ({ kind: "dynamic", bar: bar.id, dynamic: undefined }) as const),
        ...(isReset ? [{ kind: "dynamic", bar: next.id, dynamic: later } as const] : []),
      ],
      words: `Play ${dynamic} in ${barWords(bars)}`,
      loss: 0,
    }),
  );
};

/** All other loudnesses, the nearest first; softer before louder. */
function nearest(now: Dynamic | undefined): readonly Dynamic[] {
  const from = dynamics.indexOf(now ?? "mf");
  return dynamics
    .filter((dynamic) => dynamic !== now)
    .sort((a, b) => Math.abs(dynamics.indexOf(a) - from) - Math.abs(dynamics.indexOf(b) - from));
}
