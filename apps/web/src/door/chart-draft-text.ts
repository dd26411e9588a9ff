/** The chart text being written on the door, kept in this browser until its board is made. */
import { parseChartText } from "@halflap/board/chart-text";
import { type Accessor, createMemo, createSignal } from "solid-js";
import { remember, remembered, textValue } from "../session/remembered.ts";

export type Problem = Parsed["problems"][number];

type Parsed = ReturnType<typeof parseChartText>;

export type DraftText = {
  readonly text: Accessor<string>;
  /** undefined while nothing is written. */
  readonly parsed: Accessor<Parsed | undefined>;
  readonly bars: Accessor<number>;
  write(text: string): void;
  /** Texts that a file took the place of, the longest kept first. */
  readonly kept: Accessor<readonly string[]>;
  /** Writes the text of a file; what stood there is kept. */
  open(text: string): void;
  /** Changes places with the text that is kept longest. */
  bringBack(): void;
};

/** Starts with what was written before. */
export function createDraftText(): DraftText {
  const [text, setText] = createSignal(plainEnds(remembered("draft", textValue) ?? ""));
  const [kept, setKept] = createSignal(remembered("draftsKept", textsValue) ?? []);
  const parsed = createMemo(() => (text().trim() === "" ? undefined : parseChartText(text())));
  const write = (next: string) => {
    const plain = plainEnds(next);
    setText(plain);
    remember("draft", plain === "" ? undefined : plain);
  };
  /** Each text once, without those that say nothing, and without the one that is written. */
  const keep = (texts: readonly string[], written: string) => {
    const told = [...new Set(texts)].filter((each) => each.trim() !== "" && each !== written);
    setKept(told);
    remember("draftsKept", told.length === 0 ? undefined : told);
  };
  return {
    text,
    parsed,
    bars: () =>
      parsed()?.draft?.sections.reduce((sum, section) => sum + section.bars.length, 0) ?? 0,
    write,
    kept,
    open(next) {
      keep([...kept(), text()], plainEnds(next));
      write(next);
    },
    bringBack() {
      const [next, ...others] = kept();
      if (next === undefined) return;
      keep([...others, text()], next);
      write(next);
    },
  };
}

/** As a text field counts them: every line ends in one character. */
function plainEnds(text: string): string {
  return text.replace(/\r\n?/g, "\n");
}

function textsValue(value: unknown): readonly string[] | undefined {
  return Array.isArray(value) ? value.filter((each) => typeof each === "string") : undefined;
}
