/** The sound of each take, fetched and decoded when it is first wanted. */
import { apiPath, type BoardId } from "@halflap/wire/api";
import { createSignal } from "solid-js";
import { decodeSound } from "./recorder.ts";
import { recordingGain } from "./take-level.ts";

export type SoundState =
  | { readonly kind: "loading" }
  | { readonly kind: "ready"; readonly sound: AudioBuffer; readonly gain: number }
  | { readonly kind: "failed"; readonly why: "away" | "unreadable" };

/** Nothing is fetched before it is asked for; what failed is tried again when asked again. */
export function createTakeSounds(board: BoardId) {
  const [states, setStates] = createSignal<ReadonlyMap<string, SoundState>>(new Map());
  const put = (id: string, state: SoundState) => setStates((all) => new Map(all).set(id, state));
  async function load(id: string, offsetMs: number): Promise<void> {
    const known = states().get(id);
    if (known !== undefined && known.kind !== "failed") return;
    put(id, { kind: "loading" });
    put(id, await soundAt(`${apiPath.takes(board)}/${id}`, offsetMs));
  }
  /** What was heard under one id is heard under another from now on. */
  function rename(from: string, to: string): void {
    const all = new Map(states());
    const state = all.get(from);
    all.delete(from);
    if (state !== undefined) all.set(to, state);
    setStates(all);
  }
  return { stateOf: (id: string) => states().get(id), put, load, rename };
}

async function soundAt(address: string, offsetMs: number): Promise<SoundState> {
  let bytes: ArrayBuffer;
  try {
    const answer = await fetch(address, { credentials: "same-origin" });
    if (!answer.ok) return { kind: "failed", why: "away" };
    bytes = await answer.arrayBuffer();
  } catch {
    return { kind: "failed", why: "away" };
  }
  try {
    const sound = await decodeSound(bytes);
    return { kind: "ready", sound, gain: recordingGain(sound, offsetMs) };
  } catch {
    return { kind: "failed", why: "unreadable" };
  }
}
