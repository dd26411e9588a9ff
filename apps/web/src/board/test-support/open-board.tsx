/** A board that tests open in a page: the demo in real documents, and no server behind them. */
import type { LaneId } from "@halflap/board/board";
import { fillDocuments } from "@halflap/board/copy";
import { demoDraft } from "@halflap/board/demo";
import { emptyDocuments, laneDocument } from "@halflap/board/documents";
import { makeReader } from "@halflap/board/read";
import { memberId, setMember, setOwner } from "@halflap/board/talk";
import { render } from "@solidjs/testing-library";
import { batch, createSignal, type JSX } from "solid-js";
import { vi } from "vitest";
import { type Listening, ListeningProvider } from "../../listen/create-listening.ts";
import { makeChartIntents } from "../../session/chart-intents.ts";
import { makeLiveBoard } from "../../session/follow.ts";
import { makeLaneIntents } from "../../session/lane-intents.ts";
import type { SaveState, Session } from "../../session/session.ts";
import type { TogetherWire } from "../../session/together-wire.ts";
import { createDesk, type Desk, DeskProvider } from "../desk.ts";

/** Mara, who owns the upper lane, has the page open; Jo owns the lower one. */
const owners: Readonly<Record<LaneId, string>> = { upper: "Mara", lower: "Jo" };

/** Playing together, where no server is in reach. */
const silentWire: TogetherWire = {
  isOpen: () => false,
  told: () => undefined,
  askTime: () => undefined,
  onTime: () => () => undefined,
  ask: () => undefined,
};

/** `chart` and `lane(id)` are edits as either player makes them: the page follows at once. */
export function openBoard() {
  const documents = emptyDocuments();
  fillDocuments(documents, demoDraft());
  for (const lane of ["upper", "lower"] as const) {
    const id = memberId(owners[lane].toLowerCase());
    setMember(documents.talk, { id, name: owners[lane], role: "player" });
    setOwner(documents.talk, lane, id);
  }
  const read = makeReader(documents);
  const live = makeLiveBoard(read());
  const [heardCharts, setHeardCharts] = createSignal(0);
  for (const doc of Object.values(documents)) doc.on("update", () => live.follow(read()));
  const chart = makeChartIntents(
    () => documents.board,
    read,
    () => true,
  );
  const lane = (id: LaneId) => makeLaneIntents(documents[laneDocument(id)], read);
  const [state, setState] = createSignal<SaveState>({ kind: "saved" });
  const session = {
    ...{ board: live.board, chart, state, findings: () => [], presence: () => [] },
    ...{ ownLane: () => "upper", lane: () => lane("upper"), mayEditChart: () => true },
    heardCharts,
    ...{ setWhere: () => undefined, setWithin: () => undefined, isChecked: () => true },
    ...{ proposals: {}, together: () => silentWire, me: () => ({ id: "mara" }) },
  } as unknown as Session;
  /** A change of the chart that comes from elsewhere. */
  const theirs = (change: () => void) =>
    batch(() => {
      change();
      setHeardCharts((before) => before + 1);
    });
  return { documents, read, chart, lane, session, setState, theirs, draw: drawWith(session) };
}

/** What jsdom has not, and listening that hears nothing, around what is drawn. */
function drawWith(session: Session) {
  return (part: (desk: Desk) => JSX.Element) => {
    vi.stubGlobal("matchMedia", () => ({ matches: true, addEventListener: () => undefined }));
    const watcher = class {
      observe() {}
      disconnect() {}
    };
    vi.stubGlobal("IntersectionObserver", watcher);
    vi.stubGlobal("ResizeObserver", watcher);
    Element.prototype.scrollIntoView = () => undefined;
    Object.assign(HTMLDialogElement.prototype, {
      showModal: () => undefined,
      close: () => undefined,
    });
    const desks: Desk[] = [];
    const listening = { pointing: { leave: () => undefined }, heard: () => undefined };
    const view = render(() => {
      const desk = createDesk(session);
      desks.push(desk);
      return (
        <ListeningProvider value={listening as unknown as Listening}>
          <DeskProvider value={desk}>{part(desk)}</DeskProvider>
        </ListeningProvider>
      );
    });
    const [desk] = desks;
    if (!desk) throw new Error("nothing was drawn");
    return { ...view, desk };
  };
}
