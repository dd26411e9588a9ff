/**
 * The form as a dimension line: each section as long as its bars, in the order in which it is
 * played.
 */
import "./FormMap.css";
import { barsInRounds } from "@halflap/board/bars-played";
import type { FormEntry, Section } from "@halflap/board/board";
import { createSignal, For, Show } from "solid-js";
import { lazyPart } from "../app/lazy-part.tsx";
import { boardWords } from "../words/board.ts";
import { useDesk } from "./desk.ts";
import { sectionElementId, sectionNameId } from "./SectionView.tsx";
import { scrollManner } from "./scroll-manner.ts";

const FormDialog = lazyPart(async () => (await import("./FormDialog.tsx")).FormDialog);

/** Each stretch jumps to its section; players can change the order. */
export function FormMap() {
  const desk = useDesk();
  const [isOpen, setOpen] = createSignal(false);
  const stretches = () =>
    desk.session.board.form.flatMap((entry) => {
      const section = desk.session.board.sections.find((each) => each.id === entry.section);
      return section ? [{ entry, section }] : [];
    });
  return (
    <nav class="form-map" aria-label={boardWords.form}>
      <ol class="form-line">
        <For each={stretches()}>
          {({ entry, section }) => <Stretch entry={entry} section={section} />}
        </For>
      </ol>
      <Show when={stretches().length === 0}>
        <p class="small soft">{boardWords.formEmpty}</p>
      </Show>
      <Show when={desk.session.mayEditChart()}>
        <button type="button" class="button bare small" onClick={() => setOpen(true)}>
          {boardWords.editForm}
        </button>
      </Show>
      <Show when={isOpen()}>
        <FormDialog onClose={() => setOpen(false)} />
      </Show>
    </nav>
  );
}

function Stretch(props: { readonly entry: FormEntry; readonly section: Section }) {
  const bars = () => barsInRounds(props.section, props.entry.times);
  const jump = (event: MouseEvent) => {
    event.preventDefault();
    document
      .getElementById(sectionElementId(props.section))
      ?.scrollIntoView({ behavior: scrollManner(), block: "start" });
    document.getElementById(sectionNameId(props.section))?.focus({ preventScroll: true });
  };
  return (
    <li class="form-stretch" style={{ "--bars": Math.max(2, bars()) }}>
      <a href={`#${sectionElementId(props.section)}`} onClick={jump}>
        <span class="form-name">
          {props.section.name} {boardWords.times(props.entry.times)}
        </span>
        <span class="form-dimension" aria-hidden="true">
          <span class="form-bars">{bars()}</span>
        </span>
        <span class="spoken">{boardWords.bars(bars())}</span>
      </a>
    </li>
  );
}
