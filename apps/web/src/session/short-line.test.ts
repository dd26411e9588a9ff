/** Whatever is typed or pasted as a name, the document takes it. */
import { fillDocuments } from "@halflap/board/copy";
import { demoDraft } from "@halflap/board/demo";
import { emptyDocuments } from "@halflap/board/documents";
import { voiceId } from "@halflap/board/ids";
import { markMax, nameMax, reasonMax, titleMax } from "@halflap/board/limits";
import { makeReader } from "@halflap/board/read";
import { memberId } from "@halflap/board/talk";
import type { BoardId } from "@halflap/wire/api";
import { expect, test } from "vitest";
import { makeChartIntents } from "./chart-intents.ts";
import { makeLaneIntents } from "./lane-intents.ts";
import { makeProposalIntents } from "./proposal-intents.ts";
import { shortLine } from "./short-line.ts";
import { makeSingingIntents } from "./singing-intents.ts";

function open() {
  const documents = emptyDocuments();
  fillDocuments(documents, demoDraft());
  const board = makeReader(documents);
  const may = () => true;
  const document = () => documents.board;
  return {
    board,
    chart: makeChartIntents(document, board, may),
    singing: makeSingingIntents(document, board, may),
    lane: makeLaneIntents(documents["lane-upper"], board),
    proposals: makeProposalIntents({
      ...{ id: "b1" as BoardId, document, board, me: () => memberId("me") },
      ...{ ownLane: () => undefined, lane: () => undefined, mayOffer: may },
    }),
  };
}

/** A text that is cut at `max`, in the middle of a character of two. */
const cutWithin = (max: number) => [`${"a".repeat(max - 1)}😀`, "a".repeat(max - 1)] as const;

test.each([
  ["a\tb\u0007c\u0085d\u2028e", "a b c d e"],
  ["\u0001 Verse \u0000", "Verse"],
  ["half \uD83D a sign", "half \uFFFD a sign"],
  ["😀", "😀"],
])("%j is %j", (text, line) => {
  expect(shortLine(text, nameMax)).toBe(line);
});

test("titles, names, endings, reasons and marks that would not do are made to", () => {
  const { board, chart, singing, lane, proposals } = open();
  const [typedTitle, title] = cutWithin(titleMax);
  chart.setTitle(typedTitle);
  expect(board().title).toBe(title);
  const first = board().sections[0];
  const bar = first?.bars[0]?.id;
  if (first === undefined || bar === undefined) throw new Error("the demo has bars");
  chart.renameSection(first.id, "In\u0007tro");
  expect(board().sections[0]?.name).toBe("In tro");
  const nobodyYet = { lane: undefined, type: undefined, range: undefined };
  const singer = singing.addVoice({ ...nobodyYet, name: "Ma\tra" });
  const nameOf = () => board().voices.find(({ id }) => id === singer)?.name;
  expect(nameOf()).toBe("Ma ra");
  const [typedName, name] = cutWithin(nameMax);
  singing.changeVoice({ ...nobodyYet, id: voiceId(singer), name: typedName });
  expect(nameOf()).toBe(name);
  const [typedMark, mark] = cutWithin(markMax);
  lane.setMark(bar, typedMark);
  expect(board().lanes.upper.marks.get(bar)).toBe(mark);
  const [typedReason, reason] = cutWithin(reasonMax);
  proposals.offer("upper", typedReason, [bar], [{ kind: "lay-out", bar, rest: true }]);
  expect(board().proposals.map(({ words }) => words)).toContain(reason);
});
