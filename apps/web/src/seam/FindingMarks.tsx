/**
 * The findings that begin in a bar: one mark a severity, its shape the severity, a figure where
 * there are several.
 */
import "./FindingMarks.css";
import type { Bar } from "@halflap/board/board";
import { type Finding, type Severity, severities } from "@halflap/checker/finding";
import { createMemo, For, Show } from "solid-js";
import { useDesk } from "../board/desk.ts";
import { SeverityMark } from "../findings/SeverityMark.tsx";
import { boardWords } from "../words/board.ts";
import { severityCount } from "../words/findings.ts";

type Mark = { readonly severity: Severity; readonly findings: readonly Finding[] };

/** Pressing a mark picks its finding; pressing again picks the next of its kind in the bar. */
export function FindingMarks(props: { readonly bar: Bar }) {
  const desk = useDesk();
  const here = createMemo(
    () => desk.findings().filter((finding) => finding.bars[0] === props.bar.id),
    [],
    { equals: alike },
  );
  const marks = createMemo(() => severities.flatMap((severity) => markOf(severity, here())));
  const isPicked = (mark: Mark) => mark.findings.some((each) => each.id === desk.picked()?.id);
  const pickNext = (mark: Mark) => {
    const index = mark.findings.findIndex((each) => each.id === desk.picked()?.id);
    desk.pick(mark.findings[(index + 1) % mark.findings.length]);
  };
  return (
    <div class="finding-marks">
      <For each={marks()}>
        {(mark) => (
          <button
            type="button"
            class="finding-mark"
            tabindex="-1"
            aria-pressed={isPicked(mark)}
            aria-label={`${boardWords.bar(props.bar.number)}, ${severityCount(
              mark.severity,
              mark.findings.length,
            )}: ${mark.findings[0]?.words}`}
            title={mark.findings.map((each) => each.words).join("\n")}
            onClick={() => pickNext(mark)}
          >
            <SeverityMark severity={mark.severity} />
            <Show when={mark.findings.length > 1}>{mark.findings.length}</Show>
          </button>
        )}
      </For>
    </div>
  );
}

function markOf(severity: Severity, findings: readonly Finding[]): readonly Mark[] {
  const alikes = findings.filter((finding) => finding.severity === severity);
  return alikes.length > 0 ? [{ severity, findings: alikes }] : [];
}

function alike(a: readonly Finding[], b: readonly Finding[]): boolean {
  return (
    a.length === b.length &&
    a.every((finding, index) => finding.id === b[index]?.id && finding.words === b[index]?.words)
  );
}
