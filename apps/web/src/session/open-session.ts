/**
 * Opens a board: four documents, their lines to the server, and everything that is read from them.
 */
import { type LaneId, laneIds } from "@halflap/board/board";
import { copyOf } from "@halflap/board/copy";
import {
  type BoardDocuments,
  type DocumentName,
  documentNames,
  laneDocument,
} from "@halflap/board/documents";
import type { BoardId, Me } from "@halflap/wire/api";
import type { UpdateRefusal } from "@halflap/wire/messages";
import { mayTake } from "@halflap/wire/permissions";
import {
  createComputed,
  createEffect,
  createMemo,
  createRoot,
  createSignal,
  on,
  onCleanup,
} from "solid-js";
import { Awareness } from "y-protocols/awareness";
import * as Y from "yjs";
import { lateWords, refusedWords } from "../words/session.ts";
import { feedFrom } from "./board-feed.ts";
import { makeChartIntents } from "./chart-intents.ts";
import { createClosing } from "./closing.ts";
import { makeLaneIntents } from "./lane-intents.ts";
import { type Line, openLine } from "./line.ts";
import { makeId } from "./own-id.ts";
import { makeOwnUndo } from "./own-undo.ts";
import { createPresence, tellWhere, type Where } from "./presence.ts";
import { makeProposalIntents } from "./proposal-intents.ts";
import { openReadings } from "./readings.ts";
import { openRefusedCopies, type RefusedCopy } from "./refused-copies.ts";
import { saveState } from "./save-state.ts";
import { server } from "./server.ts";
import type { Session } from "./session.ts";
import { makeSingingIntents } from "./singing-intents.ts";
import { createStayKept } from "./stay-kept.ts";
import { createVersions } from "./versions.ts";

export type SessionOptions = {
  readonly id: BoardId;
  readonly epoch: number;
  /** Who I was when last heard; the board's own list of members says it newer. */
  readonly me: Me;
  /** "ws://host/sync". */
  readonly address: string;
  /** Another kind of socket, for tests. */
  readonly socket?: typeof WebSocket;
};

/** A session that lives as long as the reactive owner it is opened in. */
export function openSession(options: SessionOptions): Session & { readonly loaded: Promise<void> } {
  const lines = openLines(options);
  const readings = openReadings(lines.documents());
  const undo = makeOwnUndo();
  const me = createMemo<Me>(
    () => readings.board.members.find(({ id }) => id === options.me.id) ?? options.me,
  );
  const intents = createIntents(lines, readings, me, options.id);
  createEffect(on(lines.documents, readings.turnTo, { defer: true }));
  followUndo(undo, intents.boardDocument, intents.ownDocument);
  const where = createWhere(lines.awareness, me);
  createStayKept(lines.documents);
  const { mayEditChart, ownLane } = intents.offered;
  const isMine = (name: DocumentName) =>
    name === "board"
      ? mayEditChart()
      : laneIds.some((l) => l === ownLane() && laneDocument(l) === name);
  const isNewer = createVersions({
    documents: lines.documents,
    mayLift: (name) => lines.stateOf(name).confirmed && isMine(name),
  });
  onCleanup(() => {
    readings.close();
    undo.close();
    lines.close();
  });
  return {
    id: options.id,
    loaded: lines.loaded,
    board: readings.board,
    me,
    ...intents.offered,
    findings: readings.findings,
    isChecked: readings.isChecked,
    heardCharts: readings.heardCharts,
    waysOut: readings.waysOut,
    feed: (send) =>
      createRoot((end) => {
        createComputed(() => onCleanup(feedFrom(lines.documents(), send)));
        return end;
      }),
    makeId,
    state: createMemo(() => saveState(lines.states(), lines.interruption())),
    presence: createPresence(lines.awareness, me),
    ...where,
    together: createMemo(() => lines.board().together),
    ...laneOwnership(options.id),
    undo: undo.undo,
    redo: undo.redo,
    canUndo: undo.canUndo,
    canRedo: undo.canRedo,
    copy: () => copyOf(lines.documents()),
    isNewer,
    isKept: lines.isKept,
    lacksWork: () => lines.states().some((state) => state.lacksWork),
    dismissRefusal: lines.dismissRefusal,
  };
}

/** What I may do to the documents: the chart, my lane, and by asking the other's. */
function createIntents(
  lines: ReturnType<typeof openLines>,
  readings: ReturnType<typeof openReadings>,
  me: () => Me,
  id: BoardId,
) {
  const { board } = readings;
  const ownLane = createMemo<LaneId | undefined>(() =>
    laneIds.find((lane) => board.lanes[lane].owner === me().id),
  );
  const mayEditChart = () => lines.closed() === undefined && mayTake(me().role, "edit-chart");
  // Its steps are forgotten when it is another; a lane that is opened anew makes no other of it.
  const boardDocument = createMemo(() => lines.documents().board);
  const ownDocument = createMemo(() => {
    const lane = ownLane();
    return lane === undefined ? undefined : lines.documents()[laneDocument(lane)];
  });
  const lane = createMemo(() => {
    const doc = ownDocument();
    return doc === undefined || lines.closed() !== undefined
      ? undefined
      : makeLaneIntents(doc, readings.plain);
  });
  const proposals = makeProposalIntents({
    id,
    document: boardDocument,
    board: readings.plain,
    me: () => me().id,
    ownLane,
    lane,
    mayOffer: mayEditChart,
  });
  for (const each of laneIds) {
    createEffect(() => {
      if (lines.stateOf(laneDocument(each)).changes === 0) proposals.settle(each);
    });
    lines.beforeForgetting(laneDocument(each), () => proposals.giveBack(each));
  }
  const offered = {
    ownLane,
    mayEditChart,
    chart: makeChartIntents(boardDocument, readings.plain, mayEditChart),
    singing: makeSingingIntents(boardDocument, readings.plain, mayEditChart),
    proposals,
    lane,
  };
  return { boardDocument, ownDocument, offered };
}

/** Refusals that somebody may meet who only has what others wrote. */
const othersWork: ReadonlySet<UpdateRefusal> = new Set(["not-yours", "foreign-client"]);

function openLines(options: SessionOptions) {
  const { refused, keepRefused, dismiss, areKept } = openRefusedCopies(options.id);
  const { closed, onClosed } = createClosing(options.id, () => loaded().then(documents));
  const leaving = new Map<DocumentName, () => void>();
  /** The refused document is left behind as a copy, and started afresh from the server. */
  const onRefused = async (name: DocumentName, refusal: UpdateRefusal) => {
    const line = lines()[name];
    const wasChanged = noteChanges(line.doc);
    let kept: RefusedCopy | undefined;
    const keepCopy = (words: string) => {
      kept = keepRefused({ words: kept?.words ?? words, copy: copyOf(documents()) }, kept);
      leaving.get(name)?.();
    };
    // Without changes of mine it is others' that were lost on their way: their authors bring them.
    const isMine = !othersWork.has(refusal) || line.state().changes > 0;
    if (isMine) keepCopy(refusedWords(name, refusal));
    // What is still done to the document while it is being left belongs to a copy too.
    await line.forget();
    if (wasChanged()) keepCopy(lateWords(name));
    setLines((all) => ({ ...all, [name]: open(name) }));
  };
  const open = (name: DocumentName): Line => {
    const doc = new Y.Doc();
    return openLine({
      ...options,
      doc,
      room: `${options.id}/${name}`,
      awareness: name === "board" ? new Awareness(doc) : silent(doc),
      onRefused: (refusal) => void onRefused(name, refusal),
      onClosed,
    });
  };
  const [lines, setLines] = createSignal(byName(open));
  const documents = createMemo((): BoardDocuments => byName((name) => lines()[name].doc));
  const all = () => documentNames.map((name) => lines()[name]);
  const loaded = () => Promise.all(all().map((line) => line.loaded)).then(() => {});
  const interruption = () => {
    const words = closed();
    if (words !== undefined) return { kind: "closed", words } as const;
    const [copy] = refused();
    return copy === undefined ? undefined : ({ kind: "refused", ...copy } as const);
  };
  return {
    board: () => lines().board,
    awareness: createMemo(() => lines().board.awareness),
    documents,
    closed,
    interruption,
    stateOf: (name: DocumentName) => lines()[name].state(),
    /** Called when a document is refused, before its changes are given up. */
    beforeForgetting: (name: DocumentName, call: () => void) => leaving.set(name, call),
    states: () => all().map((line) => line.state()),
    loaded: loaded(),
    isKept: () => areKept() && all().every((line) => !line.state().keepFailing),
    dismissRefusal: dismiss,
    close() {
      for (const line of all()) line.close();
    },
  };
}

/** Whether the document was changed by this page from now on. */
function noteChanges(doc: Y.Doc): () => boolean {
  let isChanged = false;
  doc.on("update", (_update, _origin, _doc, { local }: Y.Transaction) => {
    isChanged ||= local;
  });
  return () => isChanged;
}

function byName<T>(make: (name: DocumentName) => T): Readonly<Record<DocumentName, T>> {
  return {
    board: make("board"),
    "lane-upper": make("lane-upper"),
    "lane-lower": make("lane-lower"),
    talk: make("talk"),
  };
}

/** Presence goes over the board's line alone. */
function silent(doc: Y.Doc): Awareness {
  const awareness = new Awareness(doc);
  awareness.setLocalState(null);
  return awareness;
}

/** Undo follows the chart, and my lane for as long as it is mine. */
function followUndo(
  undo: ReturnType<typeof makeOwnUndo>,
  ...documents: readonly (() => Y.Doc | undefined)[]
): void {
  for (const document of documents) {
    createEffect(() => {
      const doc = document();
      if (doc === undefined) return;
      undo.follow(doc);
      onCleanup(() => undo.leave(doc));
    });
  }
}

function createWhere(
  awareness: () => Awareness,
  me: () => Me,
): Pick<Session, "setWhere" | "setWithin"> {
  const [where, setWhere] = createSignal<Where>();
  const [within, setWithin] = createSignal<number>();
  createEffect(() => tellWhere(awareness(), me(), where(), within()));
  return { setWhere: (next) => setWhere(() => next), setWithin };
}

function laneOwnership(board: BoardId): Pick<Session, "claim" | "release" | "handOver"> {
  const problem = async (answer: ReturnType<typeof server.claim>) => {
    const result = await answer;
    return result.ok ? undefined : { problem: result.words };
  };
  return {
    claim: (lane) => problem(server.claim(board, lane)),
    release: (lane) => problem(server.release(board, lane)),
    handOver: (lane, to) => problem(server.handOver(board, lane, to)),
  };
}
