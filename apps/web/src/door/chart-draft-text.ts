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
};

/** Starts with what was written before. */
export function createDraftText(): DraftText {
  const [text, setText] = createSignal(remembered("draft", textValue) ?? "");
  const parsed = createMemo(() => (text().trim() === "" ? undefined : parseChartText(text())));
  return {
    text,
    parsed,
    bars: () =>
      parsed()?.draft?.sections.reduce((sum, section) => sum + section.bars.length, 0) ?? 0,
    write(next) {
      setText(next);
      remember("draft", next === "" ? undefined : next);
    },
  };
}
