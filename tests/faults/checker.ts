/**
 * The checker: what a history and what stands at its end must agree on, whatever failed in between.
 * Each rule says in words what is wrong.
 */
import * as Y from "yjs";
import { stateOf } from "../soak/schedule.ts";
import { editsIn, editsOf } from "./edits-in.ts";
import { type DocumentLog, type Evidence, replay } from "./evidence.ts";
import type { History, HistoryEvent } from "./history.ts";
import { isDeletedIn } from "./own-deletions.ts";

/** A sentence for each fault; none when all is well. */
export function faultsIn(history: History, evidence: Evidence): readonly string[] {
  return [
    ...evidence.logs.flatMap((log) => [
      ...notDense(log),
      ...savedAndLost(history, log),
      ...editsMissing(history, log),
      ...deletionsSavedAndLost(history, log),
      ...deletionsMissing(history, log),
      ...doubled(history, log),
    ]),
    ...differing(evidence),
    ...savedWhileGone(history),
    ...refused(history),
  ];
}

/** The ids of a document's rows are 1, 2, 3 up to its count. */
export function notDense({ document, head, folded, rows }: DocumentLog): readonly string[] {
  const holes = rows.flatMap(({ id }, i) =>
    id === i + 1 ? [] : [`${document}: row ${id} stands where ${i + 1} should`],
  );
  if (holes.length > 0) return holes.slice(0, 1);
  if (rows.length !== head) return [`${document}: ${rows.length} rows, and ${head} are counted`];
  const husks = rows.filter(({ update }) => update.length === 0);
  return husks
    .filter(({ id }) => id >= folded)
    .map(({ id }) => `${document}: row ${id} says nothing`);
}

/** Whatever a node said to be saved is in the log. */
export function savedAndLost(history: History, log: DocumentLog): readonly string[] {
  const stored = Y.decodeStateVector(Y.encodeStateVector(replay(log)));
  const told = new Map<number, Extract<HistoryEvent, { kind: "saved" }>>();
  for (const saved of history.of("saved")) {
    if (saved.document !== log.document) continue;
    for (const [client, clock] of saved.clocks) {
      if (clock > (stored.get(client) ?? 0)) told.set(client, saved);
    }
  }
  return [...told].map(
    ([client, { page, node, clocks }]) =>
      `${log.document}: node ${node} told ${page} that ${client} is saved up to ` +
      `${clocks.get(client)}, and the log has it up to ${stored.get(client) ?? 0}`,
  );
}

/** Whatever was written is in the log in the end, and once. */
export function editsMissing(history: History, log: DocumentLog): readonly string[] {
  const stored = editsOf(replay(log));
  const counts = new Map<string, number>();
  for (const edit of stored) counts.set(edit, (counts.get(edit) ?? 0) + 1);
  return history
    .of("edit")
    .filter(({ document }) => document === log.document)
    .filter(({ edit }) => counts.get(edit) !== 1)
    .map(({ edit }) => `${log.document}: ${edit} is there ${counts.get(edit) ?? 0} times`);
}

/** Whatever deletion a page took for saved is in the log. */
export function deletionsSavedAndLost(history: History, log: DocumentLog): readonly string[] {
  const saved = new Map(history.of("deletion-saved").map((told) => [told.deletion, told]));
  return deletionsNotIn(log, history).flatMap(({ deletion }) => {
    const told = saved.get(deletion);
    if (told === undefined) return [];
    const { node, page } = told;
    return [`${log.document}: node ${node} told ${page} that ${deletion} is saved, and it is lost`];
  });
}

/** Whatever was deleted is deleted in the log in the end. */
export function deletionsMissing(history: History, log: DocumentLog): readonly string[] {
  return deletionsNotIn(log, history).map(
    ({ deletion }) => `${log.document}: ${deletion} is not in the log`,
  );
}

function deletionsNotIn(log: DocumentLog, history: History) {
  const stored = replay(log);
  return history
    .of("deletion")
    .filter(({ document }) => document === log.document)
    .filter(({ deleted }) => !isDeletedIn(stored, deleted));
}

/**
 * No edit is in more rows than it was sent frames; a fold repeats what it folds. Nobody can know of
 * one that was sent twice whether the first arrived, and then a second row does no harm.
 */
export function doubled(history: History, log: DocumentLog): readonly string[] {
  const sent = new Map<string, number>();
  for (const { edits } of history.of("sent")) {
    for (const edit of edits) sent.set(edit, (sent.get(edit) ?? 0) + 1);
  }
  const rows = new Map<string, number>();
  for (const { id, update } of log.rows) {
    if (update.length === 0 || id <= log.folded) continue;
    for (const edit of editsIn(update)) rows.set(edit, (rows.get(edit) ?? 0) + 1);
  }
  return [...rows]
    .filter(([edit, count]) => count > (sent.get(edit) ?? 0))
    .map(([edit, count]) => {
      return `${log.document}: ${edit} is in ${count} rows, sent ${sent.get(edit) ?? 0} times`;
    });
}

/** Every node and every page holds what the log tells. */
export function differing({ logs, answers, pages }: Evidence): readonly string[] {
  const wanted = new Map(logs.map((log) => [log.document, stateOf(replay(log))]));
  return [...answers, ...pages]
    .filter(({ document, state }) => state !== wanted.get(document))
    .map(({ who, document, state }) => {
      const why = /^closed/.test(state) ? `, ${state}` : "";
      return `${document}: ${who} holds something else than the log${why}`;
    });
}

/**
 * While a node can't reach the store, it says of nothing that was sent to it meanwhile, and nowhere
 * else before, that it is saved.
 */
export function savedWhileGone(history: History): readonly string[] {
  const gone = new Set<number>();
  const late = new Map<string, number>();
  const early = new Set<string>();
  const ends = new Map(history.of("edit").map((edit) => [edit.edit, edit]));
  const faults: string[] = [];
  for (const event of history.events) {
    if (event.kind === "store-gone") gone.add(event.node);
    if (event.kind === "store-back") {
      gone.delete(event.node);
      for (const [edit, node] of late) if (node === event.node) late.delete(edit);
    }
    if (event.kind === "sent") {
      for (const edit of event.edits) {
        if (!gone.has(event.node)) early.add(edit);
        else if (!early.has(edit)) late.set(edit, event.node);
      }
    }
    if (event.kind !== "saved") continue;
    for (const [edit, node] of late) {
      const { document, client, end } = ends.get(edit) ?? {};
      const isSaid = (event.clocks.get(client ?? -1) ?? 0) >= (end ?? Number.POSITIVE_INFINITY);
      if (node !== event.node || document !== event.document || !isSaid) continue;
      faults.push(`${document}: node ${node} said that ${edit} is saved, without its store`);
      late.delete(edit);
    }
  }
  return faults;
}

/**
 * Nobody is refused an edit, or sent away for good. A full store passes, so does what waits for
 * others' edits, and who only has what others wrote loads it anew.
 */
export function refused(history: History): readonly string[] {
  const refusals = history
    .of("refused")
    .filter(({ why, hasOwn }) => hasOwn && why !== "store-full" && why !== "others-first");
  const isFinal = (code: number) => code >= 4000;
  const closes = history.of("closed").filter(({ code }) => isFinal(code));
  return [
    ...refusals.map(({ page, node, why }) => `node ${node} refused ${page}: ${why}`),
    ...closes.map(({ page, node, code }) => `node ${node} sent ${page} away with ${code}`),
  ];
}
