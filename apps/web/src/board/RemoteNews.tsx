/** Tells a screen reader what the other player changed, at most once in three seconds. */
import { type LaneId, laneIds } from "@halflap/board/board";
import { createEffect, createMemo, createSignal, onCleanup } from "solid-js";
import { boardWords } from "../words/board.ts";
import {
  changedBars,
  chordTexts,
  contentOf,
  type LaneContent,
  rewrittenBars,
} from "./changed-bars.ts";
import { useDesk } from "./desk.ts";
import { laneOwner } from "./owner.ts";

const pauseMs = 3000;
const barsNamedMax = 3;

/** A polite live region; empty until something happens. */
export function RemoteNews() {
  const { session } = useDesk();
  const { news, hear } = createNews();
  const hasBegun = createBegun();
  const laneSentence = (lane: LaneId) => (where: string) =>
    boardWords.changed(laneOwner(session, lane)?.name ?? boardWords.someone, where);
  for (const lane of laneIds) {
    createEffect<LaneContent | undefined>((before) => {
      const after = contentOf(session.board.lanes[lane]);
      if (!hasBegun()) return undefined;
      if (before && session.ownLane() !== lane) {
        hear(lane, changedBars(before, after, session.board.sections), laneSentence(lane));
      }
      return after;
    }, undefined);
  }
  createEffect<
    { readonly texts: ReturnType<typeof chordTexts>; readonly heard: number } | undefined
  >((before) => {
    const { sections } = session.board;
    const heard = session.heardCharts();
    if (!hasBegun()) return undefined;
    // What is written here is no news here.
    if (before && heard !== before.heard) {
      hear("chords", rewrittenBars(before.texts, sections), boardWords.rewrote);
    }
    return { texts: chordTexts(sections), heard };
  }, undefined);
  createEffect<ReadonlySet<string> | undefined>((before) => {
    const { proposals, sections, members } = session.board;
    if (!hasBegun()) return undefined;
    for (const { id, from, bars } of proposals) {
      if (before === undefined || before.has(id) || from === session.me().id) continue;
      const name = members.find((member) => member.id === from)?.name ?? boardWords.someone;
      const about = sections.flatMap((section) => section.bars).filter((b) => bars.includes(b.id));
      const numbers = about.map(({ number }) => number);
      hear(`proposals of ${name}`, numbers, (where) => boardWords.proposed(name, where));
    }
    return new Set(proposals.map(({ id }) => id));
  }, undefined);
  return (
    <div class="spoken" role="status">
      {news()}
    </div>
  );
}

/** From when on a change is news: what the board was opened with has all come. */
function createBegun(): () => boolean {
  const { session } = useDesk();
  return createMemo<boolean>((hasBegun) => {
    if (hasBegun) return true;
    const { kind } = session.state();
    if (kind === "saved" || kind === "sending") return true;
    return kind !== "opening" && session.board.sections.length > 0;
  }, false);
}

type Sentence = (where: string) => string;

/** Gathers what happens, and says it once in a while. */
function createNews() {
  const [news, setNews] = createSignal("");
  const waiting = new Map<string, { readonly bars: Set<number>; readonly sentence: Sentence }>();
  let timer: ReturnType<typeof setTimeout> | undefined;
  const tell = () => {
    timer = undefined;
    const sentences = [...waiting.values()].map(({ bars, sentence }) =>
      sentence(barsInWords([...bars].sort((a, b) => a - b))),
    );
    waiting.clear();
    setNews(sentences.join(". "));
  };
  const hear = (what: string, bars: readonly number[], sentence: Sentence) => {
    if (bars.length === 0) return;
    const known = waiting.get(what)?.bars ?? [];
    waiting.set(what, { bars: new Set([...known, ...bars]), sentence });
    if (timer !== undefined) return;
    setNews(""); // so that the same words are read once more
    timer = setTimeout(tell, pauseMs);
  };
  onCleanup(() => clearTimeout(timer));
  return { news, hear };
}

function barsInWords(bars: readonly number[]): string {
  if (bars.length > barsNamedMax) return boardWords.severalBars(bars.length);
  return bars.map((bar) => boardWords.bar(bar).toLowerCase()).join(", ");
}
