/** The switch "hear what I point at", and the short rest after which it is heard. */
import { createSignal, onCleanup } from "solid-js";
import type { Trial } from "./trial.ts";

/** What can be pointed at. */
export type Pointed = Omit<Trial, "heard"> & {
  /** Whether it is about both lanes, and says nothing with one of them. */
  readonly needsBoth: boolean;
};

/** Nothing, both lanes, or the lane that it is about. */
export type PointingChoice = "off" | "lanes" | "lane";

/** Passing over something is no question about it. */
const restMs = 250;

/** Off until somebody switches it on; `mayHear` says whether the sound is free for it. */
export function createPointing(hear: (trial: Trial) => void, mayHear: () => boolean) {
  const [choice, setChoice] = createSignal<PointingChoice>("off");
  let timer: ReturnType<typeof setTimeout> | undefined;
  let restedOn: unknown;
  /** Where one does not rest any more; what another place waits for goes on. */
  const leave = (where: unknown) => {
    if (where === restedOn) clearTimeout(timer);
  };
  const choose = (pointed: Pointed | undefined) => {
    clearTimeout(timer);
    const now = choice();
    if (pointed === undefined || now === "off" || !mayHear()) return;
    const { needsBoth, ...trial } = pointed;
    hear({ ...trial, heard: needsBoth ? "lanes" : now });
  };
  const rest = (where: unknown, pointed: Pointed | undefined) => {
    clearTimeout(timer);
    restedOn = where;
    if (pointed !== undefined && choice() !== "off") timer = setTimeout(choose, restMs, pointed);
  };
  onCleanup(() => clearTimeout(timer));
  return { choice, setChoice, rest, choose, leave };
}
