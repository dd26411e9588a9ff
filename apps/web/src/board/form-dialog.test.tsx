/**
 * The form's dialog keeps what was changed in it, and leaves the rest to whoever changed that.
 *
 * @vitest-environment jsdom
 */
import { timesMax } from "@halflap/board/limits";
import { assert } from "@halflap/theory/units";
import { cleanup, fireEvent, screen } from "@solidjs/testing-library";
import { afterEach, expect, test } from "vitest";
import { boardWords } from "../words/board.ts";
import { FormDialog } from "./FormDialog.tsx";
import { openBoard } from "./test-support/open-board.tsx";

afterEach(cleanup);

function open() {
  const board = openBoard();
  const { form } = board.read();
  board.chart.setForm(form.slice(0, 2));
  board.draw(() => <FormDialog onClose={() => undefined} />);
  const played = () => board.read().form.map(({ section, times }) => `${section} ${times}`);
  const field = screen.getByLabelText<HTMLInputElement>(boardWords.formTimes("Intro"));
  const press = (name: string) => fireEvent.click(screen.getByText(name));
  return { ...board, played, field, press };
}

test("times and order that the other changes meanwhile stand when I only add", () => {
  const { chart, read, played, press } = open();
  const [intro, verse] = read().form;
  assert(intro !== undefined && verse !== undefined, "two entries");
  chart.setForm([verse, { ...intro, times: 3 }]);
  press("+ Tag");
  press(boardWords.keep);
  expect(played()).toEqual(["verse 1", "intro 3", "tag 1"]);
});

test.each(["40", "0", "", "1.5"])(
  "%j times are refused with words, and not shown as kept",
  (typed) => {
    const { field, played, press } = open();
    fireEvent.change(field, { target: { value: typed } });
    expect(field.value).toBe("1");
    expect(screen.getByRole("alert", { hidden: true }).textContent).toContain(String(timesMax));
    fireEvent.change(field, { target: { value: "2" } });
    expect(screen.queryByRole("alert", { hidden: true })).toBeNull();
    press(boardWords.keep);
    expect(played()).toEqual(["intro 2", "verse 1"]);
  },
);
