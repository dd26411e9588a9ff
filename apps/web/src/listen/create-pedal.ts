/** The keys of a foot pedal: learnt by pressing it, kept in this browser. */
import { createSignal, onCleanup } from "solid-js";
import { remember, remembered } from "../session/remembered.ts";
import { isWrittenIn, takesPresses } from "./listen-keys.ts";
import { actionOf, isPedalKey, type PedalAction, pedalValue, withKey } from "./pedal.ts";

export type PedalKeys = ReturnType<typeof createPedal>;

const storedAs = "pedal";

/** Keys that press whatever has the focus. */
const pressing = ["Enter", " "];

/** Listens before anything else on the page does, as long as the component around it lives. */
export function createPedal(act: (action: PedalAction) => void) {
  const [pedal, setPedal] = createSignal(remembered(storedAs, pedalValue) ?? {});
  const [learning, setLearning] = createSignal<PedalAction>();
  const keep = (action: PedalAction, key: string | undefined) => {
    setPedal(withKey(pedal(), action, key));
    remember(storedAs, pedal());
  };
  const take = (event: KeyboardEvent) => {
    event.preventDefault();
    event.stopPropagation();
  };
  const learn = (event: KeyboardEvent, action: PedalAction) => {
    if (event.key === "Tab") return setLearning(undefined);
    take(event);
    if (event.key === "Escape") setLearning(undefined);
    if (!isPedalKey(event.key)) return;
    keep(action, event.key);
    setLearning(undefined);
  };
  const onKeyDown = (event: KeyboardEvent) => {
    const wanted = learning();
    if (wanted !== undefined) return learn(event, wanted);
    const action = actionOf(pedal(), event.key);
    if (action === undefined || event.ctrlKey || event.altKey || event.metaKey) return;
    const { target } = event;
    if (isWrittenIn(target) || (pressing.includes(event.key) && takesPresses(target))) return;
    take(event);
    if (!event.repeat) act(action);
  };
  addEventListener("keydown", onKeyDown, { capture: true });
  onCleanup(() => removeEventListener("keydown", onKeyDown, { capture: true }));
  return {
    pedal,
    learning,
    /** Waits for the pedal to be pressed; undefined leaves all as it was. */
    learn: setLearning,
    forget: (action: PedalAction) => keep(action, undefined),
  };
}
