/**
 * The findings that begin in a bar, each over its beat: its shape says how grave it is, a figure
 * how many there are of a kind.
 */
import "./FindingMarks.css";
import type { Bar } from "@halflap/board/board";
import { beatOf } from "@halflap/board/meter";
import { createMemo, Index, Show } from "solid-js";
import { useDesk } from "../board/desk.ts";
import { SeverityMark } from "../findings/SeverityMark.tsx";
import { boardWords } from "../words/board.ts";
import { severityCount } from "../words/findings.ts";
import { type Mark, markColumns, markPlaces } from "./mark-places.ts";

/** Pressing a mark picks its finding; pressing again picks the next of its kind at that beat. */
export function FindingMarks(props: { readonly bar: Bar }) {
  const desk = useDesk();
  const here = createMemo(() => {
    const group = desk.groupIn(props.bar.id);
    const read = group ? [...group.plain, ...group.notes, ...group.locks] : [];
    return read.map(({ finding }) => finding);
  });
  const beat = () => beatOf(desk.session.board.meter);
  const places = createMemo(() => markPlaces(here(), props.bar, beat()));
  const columns = () => markColumns(places(), props.bar.length / beat());
  return (
    <div class="finding-marks" style={{ "--places": columns() || "auto" }}>
      <Index each={places()}>
        {(place, index) => (
          <div
            class="finding-place-marks"
            data-late={index === 0 && place().beat > 0 ? "" : undefined}
          >
            <Index each={place().marks}>
              {(mark) => <OneMark mark={mark()} bar={props.bar} />}
            </Index>
          </div>
        )}
      </Index>
    </div>
  );
}

function OneMark(props: { readonly mark: Mark; readonly bar: Bar }) {
  const desk = useDesk();
  const all = () => props.mark.findings;
  const isPicked = () => all().some((each) => desk.isPickedFinding(each.id));
  const pickNext = () => {
    const index = all().findIndex((each) => each.id === desk.picked()?.id);
    desk.pick(all()[(index + 1) % all().length]);
  };
  return (
    <button
      type="button"
      class="finding-mark"
      data-sign={props.mark.sign}
      tabindex="-1"
      aria-pressed={isPicked()}
      aria-label={`${boardWords.bar(props.bar.number)}, ${severityCount(
        props.mark.sign,
        all().length,
      )}: ${all()[0]?.words}`}
      title={all()
        .map((each) => each.words)
        .join("\n")}
      onClick={pickNext}
    >
      <SeverityMark severity={props.mark.sign} />
      <Show when={all().length > 1}>{all().length}</Show>
    </button>
  );
}
