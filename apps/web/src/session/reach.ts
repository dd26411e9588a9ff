/**
 * Reaches the server for one document: the socket, the network coming and going, silence, and
 * trying again.
 */
import { carriesUpdate, closeCode } from "@halflap/wire/messages";
import type { Awareness } from "y-protocols/awareness";
import { WebsocketProvider } from "y-websocket";
import type * as Y from "yjs";
import { makeLongFrames } from "./long-frames.ts";

export type ReachOptions = {
  /** "ws://host/sync". */
  readonly address: string;
  /** `board/document`: the path on the server, and the name in this browser. */
  readonly room: string;
  /** Which history of the document this is; the server turns away whoever has another. */
  readonly epoch: number;
  readonly doc: Y.Doc;
  readonly awareness: Awareness;
  /** Another kind of socket, for tests. */
  readonly socket?: typeof WebSocket;
};

export type Reach = {
  readonly provider: WebsocketProvider;
  /**
   * How many frames with updates went out over the present socket; undefined while none is open.
   */
  readonly lastFrame: () => number | undefined;
  /** The server has decided on so many of them. */
  onDecided(decided: number): void;
  /** Connects now and whenever the network is there, until the server ends the line for good. */
  start(): void;
  /** Reconnects after a while, which offers the server everything that it lacks. */
  again(): void;
  stop(): void;
};

export type ReachPorts = {
  /** Told of each frame after which the server has been sent all that it lacked. */
  onAnswered(frame: number): void;
  /** All that the server lacks is too much for one frame: what was sent counts for nothing yet. */
  onBegun(): void;
  /** Something in the document is larger than the server takes. */
  onTooLarge(): void;
};

/** The server is asked this often, so that a dead line shows and a gap heals. */
const askEveryMs = 4_000;
/** A dead line, or one that never opens, shows within 10 s: this, and until somebody looks. */
const silenceMaxMs = 8_000;
const againMs = 5_000;

/** Opens a socket once started. */
export function openReach(options: ReachOptions, ports: ReachPorts): Reach {
  let frames = 0;
  let heardAt = 0;
  let sendNow: (frame: Uint8Array<ArrayBuffer>) => void = () => undefined;
  const long = makeLongFrames({
    ...ports,
    send: (frame) => {
      sendNow(new Uint8Array(frame));
      frames += 1;
      return frames;
    },
  });
  const Socket = options.socket ?? WebSocket;
  class CountingSocket extends Socket {
    constructor(address: string | URL, protocols?: string | string[]) {
      super(address, protocols);
      frames = 0;
      heardAt = performance.now(); // a clock that nobody sets
      for (const kind of ["open", "message"]) {
        this.addEventListener(kind, () => {
          heardAt = performance.now();
        });
      }
      long.drop();
      sendNow = (frame) => super.send(frame);
    }
    override send(frame: Uint8Array<ArrayBuffer>): void {
      if (long.takesOver(frame)) return;
      super.send(frame);
      if (!carriesUpdate(frame)) return;
      frames += 1;
      if (answersEverything(frame)) ports.onAnswered(frames);
    }
  }
  const provider = new WebsocketProvider(options.address, options.room, options.doc, {
    connect: false,
    awareness: options.awareness,
    params: { saved: "1", epoch: String(options.epoch) },
    resyncInterval: askEveryMs,
    disableBc: true, // tabs talk through the server, which knows what each may write
    WebSocketPolyfill: CountingSocket as typeof WebSocket,
  });
  return {
    provider,
    lastFrame: () => (provider.wsconnected ? frames : undefined),
    onDecided: long.onDecided,
    ...networkOf(provider, () => performance.now() - heardAt),
  };
}

/** The address of the sync server that belongs to this page. */
export function syncAddress(page: Location): string {
  return `${page.protocol === "https:" ? "wss:" : "ws:"}//${page.host}/sync`;
}

/** Whether a close code says that this browser is no member, or no member any more. */
export function isMembershipCode(code: number): boolean {
  return code === closeCode.notMember || code === closeCode.revoked;
}

/** Sync step 2 of the Yjs protocol: the answer to what the other side says it has. */
function answersEverything(frame: Uint8Array): boolean {
  return frame[0] === 0 && frame[1] === 1;
}

function networkOf(
  provider: WebsocketProvider,
  silentMs: () => number,
): Pick<Reach, "start" | "again" | "stop"> {
  const fresh = () => {
    provider.disconnect();
    provider.connect();
  };
  // What was begun in the old network may hang; the provider itself would wait for it.
  const onOnline = () => {
    if (!provider.wsconnected) fresh();
  };
  const onOffline = () => provider.disconnect();
  let watch: ReturnType<typeof setInterval> | undefined;
  let retry: ReturnType<typeof setTimeout> | undefined;
  const rest = () => {
    clearInterval(watch);
    clearTimeout(retry);
    removeEventListener("online", onOnline);
    removeEventListener("offline", onOffline);
  };
  provider.on("closed", rest);
  return {
    start() {
      watch = setInterval(() => {
        if (provider.ws !== null && silentMs() > silenceMaxMs) fresh();
      }, askEveryMs / 2);
      addEventListener("online", onOnline);
      addEventListener("offline", onOffline);
      if (navigator.onLine) provider.connect();
    },
    again() {
      clearTimeout(retry);
      retry = setTimeout(() => {
        if (provider.shouldConnect) fresh();
      }, againMs);
    },
    stop() {
      rest();
      provider.destroy();
    },
  };
}
