/** One board: opened from this browser at once where it is known, else from the server. */
import { useParams } from "@solidjs/router";
import { createResource, type JSX, Match, Show, Switch } from "solid-js";
import { boardId } from "../session/board-id.ts";
import { type KnownBoard, knowBoard, knownBoard } from "../session/known-boards.ts";
import { server } from "../session/server.ts";
import { appWords } from "../words/app.ts";
import { sessionWords } from "../words/session.ts";
import { BoardFrame } from "./BoardFrame.tsx";
import { Notice, Opening } from "./Notices.tsx";

type Found =
  | { readonly kind: "board"; readonly board: KnownBoard }
  | { readonly kind: "unknown" }
  | { readonly kind: "away"; readonly words: string };

/** The board of the address; another address is another session. */
export function BoardPage(): JSX.Element {
  const params = useParams<{ id: string }>();
  return (
    <Show when={params.id} keyed>
      {(id) => <OneBoard id={id} />}
    </Show>
  );
}

function OneBoard(props: { readonly id: string }): JSX.Element {
  const [found, { refetch }] = createResource(() => findBoard(props.id));
  const board = () => {
    const now = found();
    return now?.kind === "board" ? now.board : undefined;
  };
  const away = () => {
    const now = found();
    return now?.kind === "away" ? now.words : undefined;
  };
  return (
    <Switch fallback={<Opening />}>
      <Match when={board()}>{(known) => <BoardFrame known={known()} />}</Match>
      <Match when={found()?.kind === "unknown"}>
        <Notice title={appWords.noEntryTitle} words={sessionWords.noEntry} />
      </Match>
      <Match when={away()}>
        {(words) => (
          <Notice title={appWords.awayTitle} words={words()}>
            <button type="button" class="button main" onClick={() => void refetch()}>
              {appWords.tryAgain}
            </button>
          </Notice>
        )}
      </Match>
    </Switch>
  );
}

async function findBoard(text: string): Promise<Found> {
  const id = boardId(text);
  if (id === undefined) return { kind: "unknown" };
  const known = knownBoard(id);
  if (known !== undefined) return { kind: "board", board: known };
  const answer = await server.board(id);
  if (!answer.ok) {
    return answer.code === "not-found"
      ? { kind: "unknown" }
      : { kind: "away", words: answer.words };
  }
  const { me, epoch } = answer.value;
  const board = { id, title: "", me, editedAt: new Date().toISOString(), epoch };
  knowBoard(board);
  return { kind: "board", board };
}
