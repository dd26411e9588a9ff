/**
 * Plays takes along with the band: what sounds is made to agree, again and again, with what should
 * sound by the player's own clock. So it follows stop, seek, loop and every change by one rule.
 */
import type { Meter } from "@halflap/board/board";
import type { TakeHead } from "@halflap/board/take";
import type { Sounding } from "../companions.ts";
import type { Plan } from "../play-clock.ts";
import { wayOut } from "../way-out.ts";
import { type TakePlace, takePlaces } from "./take-places.ts";

/** A take that is to be heard. */
export type TakeVoice = {
  readonly id: string;
  readonly take: TakeHead;
  readonly sound: AudioBuffer;
  /** The factor of its samples. */
  readonly gain: number;
};

/** One stretch of a recording, sounding or about to. */
type Playing = {
  readonly voice: string;
  readonly place: TakePlace;
  readonly source: AudioBufferSourceNode;
  readonly swell: GainNode;
  readonly endTime: number;
};

type PlacesOf = ReturnType<typeof takePlaces>;

/** Sources are made this long before they sound: the page may be busy meanwhile. */
const aheadSeconds = 1;
/** A source can't start earlier than this from now. */
const soonSeconds = 0.01;
const swellSeconds = 0.006;
/** Places that lie closer than this are one place. */
const sameSeconds = 0.001;

/** One for the page; silent until it is told to follow. */
export class TakeDeck {
  readonly #levels = new Map<string, GainNode>();
  readonly #onSounding: (voices: ReadonlySet<string>) => void;
  #playing: Playing[] = [];
  /** Told to end at a moment that is still to come. */
  #leaving: Playing[] = [];
  #told = "";
  #known: { readonly plan: Plan; readonly of: Map<TakeHead, PlacesOf> } | undefined;

  /** Is told which takes sound, whenever that changes. */
  constructor(onSounding: (voices: ReadonlySet<string>) => void) {
    this.#onSounding = onSounding;
  }

  /** Makes what sounds agree with these voices and with what is played now. */
  follow(now: Sounding, voices: readonly TakeVoice[], meter: Meter): void {
    const { context } = now;
    const isOn = ({ endTime }: Playing) => endTime > context.currentTime;
    this.#playing = this.#playing.filter(isOn);
    this.#leaving = this.#leaving.filter(isOn);
    if (now.plan === undefined) {
      // After a stop there is nothing that they would have to wait for.
      for (const playing of this.#leaving) this.#end(playing, now);
      this.#leaving = [];
    }
    const wanted = voices.flatMap((voice) =>
      this.#placesNow(now, voice, meter).map((place) => ({ voice, place })),
    );
    const tolerance = sameSeconds * context.sampleRate;
    const isSame = (playing: Playing, voice: TakeVoice, place: TakePlace) =>
      playing.voice === voice.id &&
      Math.abs(playing.place.zero - place.zero) < tolerance &&
      Math.abs(playing.place.end - place.end) < tolerance;
    for (const playing of this.#playing) {
      if (!wanted.some(({ voice, place }) => isSame(playing, voice, place))) {
        this.#end(playing, now);
      }
    }
    this.#playing = this.#playing.filter((playing) =>
      wanted.some(({ voice, place }) => isSame(playing, voice, place)),
    );
    for (const { voice, place } of wanted) {
      this.#level(context, voice);
      if (!this.#playing.some((playing) => isSame(playing, voice, place))) {
        this.#begin(now, voice, place);
      }
    }
    this.#tell(now);
  }

  #placesNow({ context, plan, origin }: Sounding, voice: TakeVoice, meter: Meter) {
    if (plan === undefined) return [];
    if (this.#known?.plan !== plan) this.#known = { plan, of: new Map() };
    const { sampleRate, currentTime } = context;
    const { of } = this.#known;
    const places = of.get(voice.take) ?? takePlaces(plan, voice.take, { meter, sampleRate });
    of.set(voice.take, places);
    const sample = (currentTime - origin) * sampleRate;
    return places(sample, sample + aheadSeconds * sampleRate);
  }

  #level(context: AudioContext, { id, gain }: TakeVoice): GainNode {
    const known = this.#levels.get(id);
    if (known?.context === context) {
      if (known.gain.value !== gain) known.gain.setTargetAtTime(gain, context.currentTime, 0.01);
      return known;
    }
    const level = new GainNode(context, { gain });
    level.connect(wayOut(context));
    this.#levels.set(id, level);
    return level;
  }

  #begin({ context, origin }: Sounding, voice: TakeVoice, place: TakePlace): void {
    const { sampleRate, currentTime } = context;
    const timeAt = (sample: number) => origin + sample / sampleRate;
    const when = Math.max(timeAt(place.start), currentTime + soonSeconds);
    const endTime = Math.min(timeAt(place.end), timeAt(place.zero) + voice.sound.duration);
    if (endTime - when < 2 * swellSeconds) return;
    const source = new AudioBufferSourceNode(context, { buffer: voice.sound });
    const swell = new GainNode(context, { gain: 0 });
    swell.gain.setValueAtTime(0, when);
    swell.gain.linearRampToValueAtTime(1, when + swellSeconds);
    swell.gain.setValueAtTime(1, endTime - swellSeconds);
    swell.gain.linearRampToValueAtTime(0, endTime);
    source.connect(swell).connect(this.#level(context, voice));
    source.onended = () => swell.disconnect();
    source.start(when, when - timeAt(place.zero), endTime - when);
    this.#playing.push({ voice: voice.id, place, source, swell, endTime });
  }

  /** What is told to change at a coming anchor sounds until then, as the band does. */
  #end(playing: Playing, { context, plan, origin }: Sounding): void {
    const { source, swell } = playing;
    const anchor = plan === undefined ? 0 : origin + plan.anchor.sample / context.sampleRate;
    const at = Math.max(context.currentTime, anchor);
    swell.gain.cancelAndHoldAtTime?.(at);
    swell.gain.setTargetAtTime(0, at, swellSeconds);
    const endTime = at + 8 * swellSeconds;
    source.stop(endTime);
    if (plan !== undefined) this.#leaving.push({ ...playing, endTime });
  }

  #tell({ context, origin }: Sounding): void {
    const sounds = ({ place }: Playing) =>
      origin + place.start / context.sampleRate <= context.currentTime;
    const voices = new Set(this.#playing.filter(sounds).map(({ voice }) => voice));
    const told = [...voices].sort().join(" ");
    if (told === this.#told) return;
    this.#told = told;
    this.#onSounding(voices);
  }
}
