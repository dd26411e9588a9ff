/** A new board: from a chart that is written here, or from a file. */

import { draftCopy } from "@halflap/board/chart-text";
import type { BoardCopy } from "@halflap/board/copy";
import { createSignal, type JSX, Show } from "solid-js";
import { makeId } from "../session/own-id.ts";
import { remember } from "../session/remembered.ts";
import { appWords } from "../words/app.ts";
import { doorWords } from "../words/door.ts";
import { ChartWriter } from "./ChartWriter.tsx";
import type { DraftText } from "./chart-draft-text.ts";
import { readChartFile } from "./chart-file.ts";
import { FileSlot } from "./FileSlot.tsx";
import type { Making } from "./making.ts";
import "./NewBoard.css";

/** The written draft is forgotten only once its board is made. */
export function NewBoard(props: {
  readonly draft: DraftText;
  readonly making: Making;
  readonly name: string;
  readonly onName: (name: string) => void;
}): JSX.Element {
  const [copy, setCopy] = createSignal<BoardCopy>();
  const [fileProblem, setFileProblem] = createSignal<string>();
  const [isNameMissing, setNameMissing] = createSignal(false);
  let nameField: HTMLInputElement | undefined;

  const onFile = async (file: File) => {
    const read = await readChartFile(file);
    setFileProblem(read.kind === "problem" ? read.words : undefined);
    setCopy(read.kind === "copy" ? read.copy : undefined);
    if (read.kind === "text") props.draft.open(read.text);
  };
  const ready = () => {
    const draft = props.draft.parsed()?.draft;
    return copy() ?? (draft === undefined ? undefined : draftCopy(draft, makeId));
  };
  const onSubmit = async (event: SubmitEvent) => {
    event.preventDefault();
    const name = props.name.trim();
    setNameMissing(name === "");
    if (name === "") nameField?.focus();
    const board = ready();
    if (name === "" || board === undefined) return;
    const made = await props.making.make(name, board);
    if (made && copy() === undefined) remember("draft", undefined);
  };
  return (
    <FileSlot label={doorWords.dropHere} onFile={onFile}>
      {(pick) => (
        <form class="new-board" aria-labelledby="new-board-title" onSubmit={onSubmit}>
          <div class="new-board-head">
            <h2 id="new-board-title" class="heading">
              {doorWords.newBoard}
            </h2>
            <button type="button" class="button" onClick={pick}>
              {doorWords.openCopy}
            </button>
          </div>
          <Show when={fileProblem()}>
            {(words) => (
              <p class="problem" role="alert">
                {words()}
              </p>
            )}
          </Show>
          <Show when={copy() === undefined}>
            <KeptDraft draft={props.draft} />
          </Show>
          <Show when={copy()} fallback={<ChartWriter draft={props.draft} />}>
            {(ready) => (
              <div class="new-board-copy">
                <p>{doorWords.copyRead(ready().title || appWords.untitled)}</p>
                <button type="button" class="button" onClick={() => setCopy(undefined)}>
                  {doorWords.backToText}
                </button>
              </div>
            )}
          </Show>
          <div class="new-board-make">
            <div>
              <label class="label" for="maker-name">
                {doorWords.yourName}
              </label>
              <input
                ref={nameField}
                id="maker-name"
                class="field"
                maxlength={40}
                autocomplete="nickname"
                aria-invalid={isNameMissing()}
                value={props.name}
                onInput={(event) => props.onName(event.currentTarget.value)}
              />
            </div>
            <button
              type="submit"
              class="button main"
              disabled={ready() === undefined || props.making.isMaking()}
            >
              {props.making.isMaking() ? doorWords.making : doorWords.make}
            </button>
          </div>
          <p class="problem" role="alert">
            {isNameMissing() ? doorWords.nameMissing : (props.making.problem() ?? "")}
          </p>
        </form>
      )}
    </FileSlot>
  );
}

/** Offers back what stood where a file's text stands now. */
function KeptDraft(props: { readonly draft: DraftText }): JSX.Element {
  return (
    <Show when={props.draft.kept().length > 0}>
      <div class="new-board-copy">
        <p>{doorWords.draftKept}</p>
        <button type="button" class="button" onClick={() => props.draft.bringBack()}>
          {doorWords.bringBackDraft}
        </button>
      </div>
    </Show>
  );
}
