/** The boards this browser is a member of, the last changed first. */
import type { BoardCard } from "@halflap/wire/api";
import { mayTake } from "@halflap/wire/permissions";
import { A } from "@solidjs/router";
import { createResource, createSignal, For, type JSX, Show } from "solid-js";
import { Mark } from "../app/Mark.tsx";
import { SureButton } from "../app/SureButton.tsx";
import { forgetBoard, knownBoards } from "../session/known-boards.ts";
import { server } from "../session/server.ts";
import { appWords, roleWords } from "../words/app.ts";
import { doorWords } from "../words/door.ts";
import { whenWords } from "./when-words.ts";
import "./BoardList.css";

type Listed = { readonly boards: readonly BoardCard[]; readonly offline: boolean };

/** Nothing at all on a first visit. */
export function BoardList(): JSX.Element {
  const known = { boards: knownBoards(), offline: false };
  // What is known here is shown at once; the server's list takes its place.
  const [listed, { refetch }] = createResource<Listed>(() => listedBoards(known), {
    initialValue: known,
  });
  const list = () => listed.latest ?? known;
  const [problem, setProblem] = createSignal<string>();
  const remove = async (board: BoardCard) => {
    const answer = await server.deleteBoard(board.id);
    setProblem(answer.ok ? undefined : answer.words);
    if (!answer.ok) return;
    forgetBoard(board.id);
    await refetch();
  };
  return (
    <Show when={list().boards.length > 0}>
      <section class="board-list" aria-labelledby="board-list-title">
        <h2 id="board-list-title" class="heading">
          {doorWords.boards}
        </h2>
        <p class="problem" role="alert">
          {problem() ?? ""}
        </p>
        <Show when={list().offline}>
          <p class="soft">{doorWords.boardsOffline}</p>
        </Show>
        <ul>
          <For each={list().boards}>
            {(board) => (
              <li class="board-list-row">
                <A class="board-list-card" href={`/board/${board.id}`}>
                  <Mark />
                  <span class="large strong">{board.title || appWords.untitled}</span>
                  <span class="board-list-facts soft small">
                    <span>{doorWords.edited(whenWords(new Date(board.editedAt), new Date()))}</span>
                    <span>{doorWords.role(roleWords[board.me.role])}</span>
                  </span>
                </A>
                <Show when={!list().offline && mayTake(board.me.role, "delete-board")}>
                  <SureButton
                    words={doorWords.remove}
                    sure={doorWords.removeSure(board.title || appWords.untitled)}
                    onSure={() => void remove(board)}
                  />
                </Show>
              </li>
            )}
          </For>
        </ul>
      </section>
    </Show>
  );
}

async function listedBoards(known: Listed): Promise<Listed> {
  const answer = await server.boards();
  if (!answer.ok) return { ...known, offline: true };
  const newestFirst = [...answer.value.boards].sort((a, b) => (a.editedAt < b.editedAt ? 1 : -1));
  return { boards: newestFirst, offline: false };
}
