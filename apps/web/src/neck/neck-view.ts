/** How one person likes to see the neck: turned round or not, and which ghosts lie on it. */
import { createSignal } from "solid-js";

export type NeckView = ReturnType<typeof createNeckView>;

const mirrorKey = "halflap-left-handed";

/** Left-handedness is remembered on this device. */
export function createNeckView() {
  const [isMirrored, setMirrored] = createSignal(localStorage.getItem(mirrorKey) === "yes");
  const [showsBefore, setBefore] = createSignal(true);
  const [showsAfter, setAfter] = createSignal(true);
  const [showsOther, setOther] = createSignal(true);
  const mirror = (on: boolean) => {
    localStorage.setItem(mirrorKey, on ? "yes" : "no");
    setMirrored(on);
  };
  return {
    isMirrored,
    mirror,
    showsBefore,
    setBefore,
    showsAfter,
    setAfter,
    showsOther,
    setOther,
  };
}
