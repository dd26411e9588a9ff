/** What goes over the board's line about playing together: the time, and the last word. */
import {
  type ClockAnswer,
  clockAnswerMessage,
  decodeClockAnswer,
  decodeTogetherTold,
  encodeClockQuestion,
  encodeTogetherAsk,
  type SharedWish,
  type Told,
  togetherToldMessage,
} from "@halflap/wire/together";
import { type Accessor, createSignal } from "solid-js";
import type { WebsocketProvider } from "y-websocket";

/** An answer with the page's own time at which it came, in ms. */
export type TimedAnswer = ClockAnswer & { readonly cameMs: number };

export type TogetherWire = {
  /** Whether the server is in reach. */
  readonly isOpen: Accessor<boolean>;
  /** The last word; tells anew whenever the server does. undefined before the first. */
  readonly told: Accessor<Told | undefined>;
  /** Asks for the time, now; `isAlong` = somebody here hears what is played together. */
  askTime(isAlong: boolean): void;
  /** Hears every answer until what comes back is called. */
  onTime(hear: (answer: TimedAnswer) => void): () => void;
  /** Asks for something to be played, or for a stop; the answer is the next word, if any. */
  ask(wish: SharedWish): void;
};

/** Over the board's own socket; nothing is said while it is closed. */
export function openTogetherWire(
  provider: WebsocketProvider,
  isOpen: Accessor<boolean>,
): TogetherWire {
  const [told, setTold] = createSignal<Told | undefined>(undefined, { equals: false });
  const ears = new Set<(answer: TimedAnswer) => void>();
  const say = (frame: Uint8Array) => {
    if (provider.wsconnected) provider.ws?.send(new Uint8Array(frame));
  };
  provider.messageHandlers[clockAnswerMessage] = (_encoder, decoder) => {
    const cameMs = performance.now();
    const answer = { ...decodeClockAnswer(decoder), cameMs };
    for (const hear of ears) hear(answer);
  };
  provider.messageHandlers[togetherToldMessage] = (_encoder, decoder) => {
    const word = decodeTogetherTold(decoder);
    if (word !== undefined) setTold(word);
  };
  return {
    isOpen,
    told,
    askTime: (isAlong) => say(encodeClockQuestion({ sentMs: performance.now(), isAlong })),
    onTime(hear) {
      ears.add(hear);
      return () => ears.delete(hear);
    },
    ask: (wish) => say(encodeTogetherAsk(wish)),
  };
}
