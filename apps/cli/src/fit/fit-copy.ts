/** A board's JSON copy with an answer in it, as a new file. */
import { closeSync, openSync, rmSync, writeFileSync } from "node:fs";
import type { Board, LaneId } from "@halflap/board/board";
import { copyOf } from "@halflap/board/copy";
import { type BoardDocuments, laneDocument } from "@halflap/board/documents";
import { chordOfBoard } from "@halflap/board/edited-board";
import { applyLaneEdits } from "@halflap/board/edits/lane-edits";
import type { LaneEdit } from "@halflap/board/proposal";
import type { Answer } from "@halflap/fitter/answer";
import type { Mending } from "@halflap/fitter/mended";

/** An answer for a board, and the documents that the board was read from. */
export type Fitted = {
  readonly documents: BoardDocuments;
  readonly board: Board;
  readonly taken: Answer;
  /** Changes on top of the answer; undefined = none. */
  readonly mending: Mending | undefined;
};

/**
 * Puts the answer into the documents and writes their copy; a sentence where that can't be done.
 * A file that is there already is left alone.
 */
export function writeFitted(
  file: string,
  { documents, board, taken, mending }: Fitted,
): string | undefined {
  const chordOf = chordOfBoard(board);
  const put = ({ lane, edits }: { readonly lane: LaneId; readonly edits: readonly LaneEdit[] }) =>
    applyLaneEdits(documents[laneDocument(lane)], edits, chordOf);
  for (const part of taken.parts) put(part);
  for (const change of mending?.changes ?? []) put(change);
  const text = `${JSON.stringify(copyOf(documents), undefined, 2)}\n`;
  try {
    writeNew(file, text);
    return undefined;
  } catch (fault) {
    return notWritten(file, fault);
  }
}

/** All of the text, or no file. */
function writeNew(file: string, text: string): void {
  const opened = openSync(file, "wx");
  try {
    writeFileSync(opened, text);
  } catch (fault) {
    rmSync(file);
    throw fault;
  } finally {
    closeSync(opened);
  }
}

function notWritten(file: string, fault: unknown): string {
  const code = fault instanceof Error && "code" in fault ? fault.code : undefined;
  if (code === "EEXIST") return `${file} is there already: --copy writes a new file.`;
  if (code === "EACCES") return `${file} may not be written.`;
  const isNowhere = code === "ENOENT" || code === "ENOTDIR";
  const words = fault instanceof Error ? fault.message : String(fault);
  return `${file} can't be written: ${isNowhere ? "its folder is not there" : words}.`;
}
