/**
 * An open board: its session, the bar on top, what has to be said about it, and the board itself.
 */
import { createEffect, createResource, type JSX, lazy, onCleanup, Show, Suspense } from "solid-js";
import { type KnownBoard, knowBoard, knownBoard } from "../session/known-boards.ts";
import { openSession } from "../session/open-session.ts";
import { syncAddress } from "../session/reach.ts";
import type { Session } from "../session/session.ts";
import { appWords } from "../words/app.ts";
import { askBeforeLeaving } from "./before-leaving.ts";
import { HintStrip } from "./HintStrip.tsx";
import { takeFirstLook } from "./hints.ts";
import { isPartMissed } from "./lazy-part.tsx";
import { MissedStrip } from "./MissedStrip.tsx";
import { Opening } from "./Notices.tsx";
import { StateStrips } from "./StateStrips.tsx";
import { Title } from "./Title.tsx";
import { TopBar } from "./TopBar.tsx";
import { undoStep } from "./undo-keys.ts";

const BoardView = lazy(async () => ({
  default: (await import("../board/BoardView.tsx")).BoardView,
}));

// Loads beside what the session fetches, not after it. The signs are two small fonts, thin and
// heavy; one that came only with the first note that needs it would lay out the whole board anew.
void BoardView.preload();
for (const weight of [400, 700]) void document.fonts.load(`${weight} 1em "Halflap Signs"`, "♭");

/** Opens a session for as long as it is drawn. */
export function BoardFrame(props: { readonly known: KnownBoard }): JSX.Element {
  // A frame is drawn anew for another board, so what is known is read once.
  const { id, epoch, me } = props.known;
  const session = openSession({ id, epoch, me, address: syncAddress(location) });
  const [isLoaded] = createResource(() => session.loaded.then(() => true));
  const isReady = () =>
    isLoaded() === true &&
    (session.board.sections.length > 0 || session.state().kind !== "opening");

  const isFirstLook = takeFirstLook(id);
  rememberBoard(session, props.known);
  const onKeyDown = (event: KeyboardEvent) => {
    const step = undoStep(event);
    if (step === undefined) return;
    event.preventDefault();
    session[step]();
  };
  addEventListener("keydown", onKeyDown);
  onCleanup(() => removeEventListener("keydown", onKeyDown));
  // Only where leaving would lose something: not on the server's disk, and not kept here.
  askBeforeLeaving(() => !session.isKept() && hasChanges(session), appWords.leaveUnsaved);
  return (
    <Suspense fallback={<Opening />}>
      <Show when={isReady()} fallback={<Opening />}>
        <Title text={`${session.board.title || appWords.untitled} · ${appWords.name}`} />
        <TopBar session={session} />
        <StateStrips session={session} />
        <Show when={isPartMissed()} fallback={<HintStrip board={session.id} />}>
          <MissedStrip />
        </Show>
        <BoardView session={session} opensOnFinding={isFirstLook} />
      </Show>
    </Suspense>
  );
}

/** Keeps the door's list right: title, role, and that this board was the last one opened. */
function rememberBoard(session: Session, known: KnownBoard): void {
  createEffect(() => {
    const { title } = session.board;
    if (session.board.sections.length === 0) return;
    const { epoch } = knownBoard(known.id) ?? known; // a restored board has another by now
    knowBoard({ ...known, epoch, title, me: session.me(), editedAt: new Date().toISOString() });
  });
}

function hasChanges(session: Session): boolean {
  const state = session.state();
  return state.kind === "refused" || ("changes" in state && state.changes > 0);
}
