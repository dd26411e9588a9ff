/** Findings that the players agree to live with, and those that speak again. */
import { assert } from "@halflap/theory/units";
import type * as Y from "yjs";
import type { Silence } from "../board.ts";
import { silenceIn } from "../chart-state.ts";
import { isContentId, isStoredId } from "../ids.ts";
import * as limits from "../limits.ts";
import { knownFields, setKeeping } from "../newer-fields.ts";
import { isOneLine } from "../one-line.ts";
import { editChart } from "./stored.ts";

/** Agrees to live with a rule's findings in some bars, for a reason. */
export function silence(doc: Y.Doc, made: Silence): void {
  const { id, rule, bars, reason } = made;
  assert(isStoredId(id) && isOneLine(rule, limits.ruleMax), "a silence needs an id and a rule");
  assert(isOneLine(reason, limits.reasonMax), "a reason is one line");
  assert(bars.length > 0 && bars.every(isContentId), "a silence covers bars");
  editChart(doc, (chart) => chart.silences.set(id, { rule, bars: [...bars], reason }));
}

/** E8: lets a rule's findings in some bars speak again, whichever silences cover them. */
export function unsilence(doc: Y.Doc, { rule, bars }: Pick<Silence, "rule" | "bars">): void {
  const spoken = new Set(bars);
  editChart(doc, ({ silences }) => {
    for (const [id, stored] of [...silences.entries()]) {
      const silent = silenceIn(id, stored);
      if (silent === undefined || silent.rule !== rule) continue;
      const left = silent.bars.filter((bar) => !spoken.has(bar));
      if (left.length === silent.bars.length) continue;
      const { reason } = silent;
      if (left.length === 0) silences.delete(id);
      else setKeeping(silences, id, { rule, bars: left, reason }, knownFields.silences);
    }
  });
}
