/**
 * What the strip says of who else listens along is true, or not said.
 *
 * @vitest-environment jsdom
 */
import { cleanup, render } from "@solidjs/testing-library";
import { createSignal } from "solid-js";
import { afterEach, expect, test, vi } from "vitest";
import { type Desk, DeskProvider } from "../../board/desk.ts";
import { TogetherStrip } from "./TogetherStrip.tsx";

const [isCutOff, setCutOff] = createSignal(false);
const [others, setOthers] = createSignal<readonly { name: string; withinMs: number }[]>([]);
const together = {
  isMeeting: () => true,
  isReachable: () => true,
  place: () => undefined,
  trouble: () => undefined,
  agreement: () => ({ withinMs: 3, isCutOff: isCutOff() }),
  others,
};

vi.mock("../create-listening.ts", () => ({
  useListening: () => ({ together, heard: () => undefined }),
}));

afterEach(cleanup);

test("that nobody else listens along is said only where all others would be seen", () => {
  const desk = { place: () => undefined } as unknown as Desk;
  const strip = render(() => (
    <DeskProvider value={desk}>
      <TogetherStrip />
    </DeskProvider>
  )).getByRole("status");
  expect(strip.textContent).toMatch(/Nobody else listens along yet/);
  setCutOff(true);
  expect(strip.textContent).toMatch(/^Part of the line is lost/);
  expect(strip.textContent).not.toMatch(/Nobody else/);
  setOthers([{ name: "Ben", withinMs: 4 }]);
  expect(strip.textContent).toMatch(/Part of the line is lost.* Together with Ben, within 7 ms/);
  setCutOff(false);
  expect(strip.textContent).toBe("Together with Ben, within 7 ms");
});
