/**
 * One document's line to the server: kept in this browser, synced over a socket, and honest about
 * which of its changes the server has said to be on its disk.
 */
import {
  closeCode,
  decodeDecided,
  decodeRefused,
  decodeSaved,
  refusedMessage,
  savedMessage,
  type UpdateRefusal,
} from "@halflap/wire/messages";
import { type Accessor, batch, createSignal } from "solid-js";
import type { Awareness } from "y-protocols/awareness";
import * as Y from "yjs";
import { type Changes, followChanges } from "./changes.ts";
import { openKeep } from "./keep.ts";
import { forgetOthers, sayAgain } from "./presence.ts";
import { openReach, type Reach, type ReachOptions } from "./reach.ts";
import { openTogetherWire, type TogetherWire } from "./together-wire.ts";

export type LineState = {
  /** Whether a first attempt to reach the server has come to an end, one way or the other. */
  readonly tried: boolean;
  readonly connected: boolean;
  /** The server has said that everything loaded from this browser is on its disk. */
  readonly confirmed: boolean;
  readonly changes: number;
  readonly storeFull: boolean;
  /** The server can't read what it has of this document; it is asked again and again. */
  readonly unreadable: boolean;
  readonly keepFailing: boolean;
  /** Some of what was done here can't be read any more, or is nowhere. */
  readonly lacksWork: boolean;
};

export type Line = {
  readonly doc: Y.Doc;
  readonly awareness: Awareness;
  /** What this browser kept is in the document. */
  readonly loaded: Promise<void>;
  readonly state: Accessor<LineState>;
  /** Of use on the board's document, where the server answers it. */
  readonly together: TogetherWire;
  close(): void;
  /** Closes, and throws away what this browser kept of the document. */
  forget(): Promise<void>;
};

export type LineOptions = ReachOptions & {
  onRefused(refusal: UpdateRefusal): void;
  /** The server ended the line for good, with one of `closeCode`. */
  onClosed(code: number): void;
};

/** Refusals that pass by themselves: the same changes are offered again later. */
const passing: ReadonlySet<UpdateRefusal> = new Set(["store-full", "too-fast"]);

/** Opens a line; it connects once what this browser kept is loaded. */
export function openLine(options: LineOptions): Line {
  const { doc, room, epoch } = options;
  const keep = openKeep(`halflap:${epoch}:${room}`, doc);
  const reach = openReach(options, {
    onAnswered: (frame) => changes.onAnswered(frame),
    onBegun: () => changes.onUnsent(),
    // Told in the middle of sending, which must end before the line does.
    onTooLarge: () => queueMicrotask(() => options.onRefused("too-large")),
  });
  const changes = followChanges(doc, `unsaved:${epoch}:${room}`, reach.lastFrame);
  const reached = listen(options, reach, changes);
  let open = true;

  const loaded = keep.loaded.then(() => {
    changes.onLoaded();
    if (open) reach.start();
    if (!navigator.onLine) reached.giveUp();
  });
  const close = () => {
    open = false;
    options.awareness.destroy();
    reach.stop();
    changes.stop();
  };
  return {
    doc,
    awareness: options.awareness,
    loaded,
    state: () => ({
      ...reached.state(),
      confirmed: changes.confirmed(),
      changes: changes.count(),
      keepFailing: keep.failing(),
      lacksWork: keep.hasUnreadable() || changes.areSomeLost(),
    }),
    together: openTogetherWire(reach.provider, () => reached.state().connected),
    close() {
      close();
      keep.close();
    },
    async forget() {
      close();
      changes.forget();
      await keep.forget();
    },
  };
}

type Reached = {
  readonly state: Accessor<Pick<LineState, "tried" | "connected" | "storeFull" | "unreadable">>;
  /** There is no network to try. */
  giveUp(): void;
};

function listen(options: LineOptions, reach: Reach, changes: Changes): Reached {
  const { provider } = reach;
  const [tried, setTried] = createSignal(false);
  const [connected, setConnected] = createSignal(false);
  const [storeFull, setStoreFull] = createSignal(false);
  const [unreadable, setUnreadable] = createSignal(false);
  const onStatus = (now: boolean) =>
    batch(() => {
      if (now) changes.onUnsent();
      setConnected(now);
      setTried(true);
    });
  provider.on("status", ({ status }) => {
    if (status === "connecting") return;
    onStatus(status === "connected");
    if (status === "connected") sayAgain(options.awareness);
    else forgetOthers(options.awareness); // by now its readers were told that they left
  });
  provider.on("connection-close", (event) =>
    batch(() => {
      if (event?.code === closeCode.unreadable) setUnreadable(true);
      onStatus(false);
    }),
  );
  // A line that is closed again at once was no answer; what the document holds is one.
  provider.on("sync", (isSynced) => {
    if (isSynced) setUnreadable(false);
  });
  provider.on("closed", ({ code }) => options.onClosed(code));
  provider.messageHandlers[savedMessage] = (_encoder, decoder) => {
    const stored = Y.decodeStateVector(decodeSaved(decoder));
    const decided = decodeDecided(decoder);
    batch(() => {
      changes.onSaved(stored, decided);
      if (changes.count() === 0) setStoreFull(false);
    });
    reach.onDecided(decided);
  };
  provider.messageHandlers[refusedMessage] = (_encoder, decoder) => {
    const refusal = decodeRefused(decoder);
    if (refusal === "others-first") return changes.onLeftAside();
    if (!passing.has(refusal)) return options.onRefused(refusal);
    changes.onUnsent(); // a refused frame counts as decided, so it no longer stands for its changes
    if (refusal === "store-full") setStoreFull(true);
    reach.again();
  };
  return {
    state: () => ({
      tried: tried(),
      connected: connected(),
      storeFull: storeFull(),
      unreadable: unreadable(),
    }),
    giveUp: () => setTried(true),
  };
}
