/**
 * The open board: the form, the chart as lines of bars, and beside it the neck and the findings.
 */
import "./BoardView.css";
import {
  createComputed,
  createEffect,
  createMemo,
  createSignal,
  For,
  Show,
  untrack,
} from "solid-js";
import { lazyPart } from "../app/lazy-part.tsx";
import { createRootSign } from "../app/root-sign.ts";
import { FindingsPanel } from "../findings/FindingsPanel.tsx";
import { createListening, ListeningProvider } from "../listen/create-listening.ts";
import { ListenBar } from "../listen/ListenBar.tsx";
import { SeamHatch } from "../seam/SeamHatch.tsx";
import type { Session } from "../session/session.ts";
import { boardWords } from "../words/board.ts";
import { createBoardKeys } from "./board-keys.ts";
import { createBoardLayout } from "./board-layout.ts";
import { createDesk, type Desk, DeskProvider, type SidePanel, slotAt } from "./desk.ts";
import { EmptyBoard } from "./EmptyBoard.tsx";
import { FindingsTab } from "./FindingsTab.tsx";
import { FitButton } from "./FitButton.tsx";
import { FormMap } from "./FormMap.tsx";
import { createFirstLook } from "./first-look.ts";
import { KeyHint } from "./KeyHint.tsx";
import { createKeptFocus } from "./kept-focus.ts";
import { LaneClaims } from "./LaneClaims.tsx";
import { firstPlace, holds } from "./place.ts";
import { RemoteNews } from "./RemoteNews.tsx";
import { SectionAdder } from "./SectionAdder.tsx";
import { SectionView } from "./SectionView.tsx";
import { droppedChords } from "./slot-home.ts";

// Loaded when first needed; what the board shows at once stays small.
const KeysDialog = lazyPart(async () => (await import("./KeysDialog.tsx")).KeysDialog);
const SetAsideTray = lazyPart(async () => (await import("./SetAsideTray.tsx")).SetAsideTray);
const ProposalList = lazyPart(
  async () => (await import("../proposals/ProposalList.tsx")).ProposalList,
);
const NeckPanel = lazyPart(async () => (await import("../neck/NeckPanel.tsx")).NeckPanel);
const PlayingPanel = lazyPart(
  async () => (await import("../playing/PlayingPanel.tsx")).PlayingPanel,
);
const SingingPanel = lazyPart(
  async () => (await import("../singing/SingingPanel.tsx")).SingingPanel,
);
const FitPanel = lazyPart(async () => (await import("../fit/FitPanel.tsx")).FitPanel);

/** Everything below the top bar. */
export function BoardView(props: {
  readonly session: Session;
  /** Whether it opens with its gravest finding picked. */
  readonly opensOnFinding: boolean;
}) {
  // A session lasts as long as the board is open, so it is read once.
  const session = props.session;
  const desk = createDesk(session);
  const listening = createListening(desk);
  const [showsKeys, setShowsKeys] = createSignal(false);
  const layout = createBoardLayout(desk);
  const onKeyDown = createBoardKeys(desk, layout.lines, () => setShowsKeys(true));
  const open = createMemo(() => {
    const place = desk.isNeckOpen() ? desk.slotPlace() : undefined;
    return place && slotAt(session.board, place) ? place : undefined;
  });
  const playing = () => panelOf(desk, "playing");
  const singing = () => panelOf(desk, "singing");
  const fits = () => desk.sidePanel()?.kind === "fit";
  const isBeside = createMemo(() => Boolean(open() || playing() || singing() || fits()));
  createRootSign("board", () => true);
  createRootSign("beside", isBeside);
  const hasAside = createMemo(() => {
    const { bars, waiting } = session.board.setAside;
    return bars.length > 0 || waiting.length > 0 || droppedChords(session.board).length > 0;
  });
  // Made when first opened, and kept with its answers when it closes.
  const [wasFitted, setFitted] = createSignal(false);
  createComputed(() => fits() && setFitted(true));
  // Whoever types a grip on the board goes on in the neck's field: it is there by then.
  createEffect(() => session.ownLane() && void NeckPanel.preload());
  createEffect(() => {
    const place = desk.place();
    const isThere = place !== undefined && holds(layout.lines(), place);
    if (!isThere) desk.settle(firstPlace(layout.lines(), session.ownLane() ?? "upper"));
  });
  createKeptFocus(desk, layout.lines);
  if (untrack(() => props.opensOnFinding)) createFirstLook(desk);
  return (
    <DeskProvider value={desk}>
      <ListeningProvider value={listening}>
        {/* biome-ignore lint/a11y/noStaticElementInteractions: keys bubble up from the cells */}
        <div
          class="board"
          data-neck={isBeside() ? "open" : "closed"}
          data-preview={desk.preview() ? "" : undefined}
          onKeyDown={onKeyDown}
        >
          <SeamHatch />
          <main class="board-main" ref={layout.measure} aria-label={boardWords.chart}>
            <div class="board-top">
              <FormMap />
              <FitButton />
              <button
                type="button"
                class="button bare small board-keys"
                onClick={() => setShowsKeys(true)}
              >
                {boardWords.keys} <KeyHint name="show-keys" />
              </button>
            </div>
            <LaneClaims />
            <Show when={session.board.sections.length > 0} fallback={<EmptyBoard />}>
              <For each={session.board.sections}>
                {(section, index) => (
                  <SectionView
                    section={section}
                    index={index()}
                    perLine={layout.perLine(section)}
                    scale={layout.scale()}
                    isPrinted={layout.isPrinted()}
                  />
                )}
              </For>
            </Show>
            <Show when={session.mayEditChart()}>
              <SectionAdder />
            </Show>
            <Show when={hasAside() && session.mayEditChart()}>
              <SetAsideTray />
            </Show>
          </main>
          <aside class="board-side">
            <Show when={open()}>
              {(place) => <NeckPanel place={place()} onClose={desk.closeNeck} />}
            </Show>
            <Show when={playing()}>
              {(panel) => (
                <PlayingPanel lane={panel().lane} bar={panel().bar} onClose={desk.closeSidePanel} />
              )}
            </Show>
            <Show when={singing()}>
              {(panel) => <SingingPanel bar={panel().bar} onClose={desk.closeSidePanel} />}
            </Show>
            <Show when={wasFitted()}>
              <FitPanel
                isOpen={fits()}
                onClose={() => {
                  desk.closeSidePanel();
                  setFitted(false);
                }}
              />
            </Show>
            <Show when={session.board.proposals.length > 0}>
              <ProposalList />
            </Show>
            <FindingsPanel />
          </aside>
          <FindingsTab />
          <ListenBar />
          <RemoteNews />
          <Show when={showsKeys()}>
            <KeysDialog onClose={() => setShowsKeys(false)} />
          </Show>
        </div>
      </ListeningProvider>
    </DeskProvider>
  );
}

type BarPanel = Extract<SidePanel, { readonly bar: unknown }>;

/** The open panel of a kind, as long as its bar is on the board. */
function panelOf<K extends BarPanel["kind"]>(desk: Desk, kind: K) {
  const panel = desk.sidePanel();
  const isKind = (each: SidePanel): each is Extract<BarPanel, { kind: K }> => each.kind === kind;
  if (panel === undefined || !isKind(panel)) return undefined;
  const bars = desk.session.board.sections.flatMap((section) => section.bars);
  return bars.some((bar) => bar.id === panel.bar) ? panel : undefined;
}
