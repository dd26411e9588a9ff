/**
 * Who is present in a room: one state for each seat that said something, passed on and taken back.
 */
import type { MemberId } from "@halflap/board/board";
import { hear, memberIn, readEntries } from "./awareness-gate.ts";
import { awarenessFrame, type PresenceEntry } from "./frames.ts";
import type { Seat } from "./seat.ts";

type Spoken = { readonly seat: Seat; readonly entry: PresenceEntry };
type Elsewhere = { readonly entry: PresenceEntry; readonly atMs: number };

/** How long a state holds that nobody renews; pages renew theirs every 15 seconds. */
export const elsewhereMs = 25_000;

/** One for each room. */
export class Presences {
  private readonly spoken = new Map<number, Spoken>();
  /** Those of pages at other nodes, and for a while of those that have gone from there. */
  private readonly elsewhere = new Map<number, Elsewhere>();

  /**
   * Takes in what a seat says. Answers the entry to pass on to everybody, the sender included (the
   * stock client drops a line on which it hears nothing for 30 s); undefined when there is nothing
   * to pass on.
   */
  hear(
    seat: Seat,
    name: string,
    bytes: Uint8Array,
    ownerOf: (client: number) => MemberId | undefined,
  ): PresenceEntry | undefined {
    const last = seat.client === undefined ? undefined : this.spoken.get(seat.client)?.entry.clock;
    const { client, entry } = hear(bytes, {
      member: seat.member,
      name,
      client: seat.client,
      clock: last,
      mayTake: (wanted) => (ownerOf(wanted) ?? seat.member) === seat.member,
    });
    if (client !== undefined && seat.client === undefined) this.take(seat, client);
    if (client !== undefined) this.elsewhere.delete(client); // its page has come from there
    if (entry === undefined) return undefined;
    this.spoken.set(entry.client, { seat, entry });
    return entry;
  }

  /**
   * Forgets a seat. Answers the entry that takes its state back; undefined when it had none. Its
   * clock is the last one heard, which takes back as well as the next one would, and leaves the
   * next one to the page: a page that comes again with it is seen at once.
   */
  leave(seat: Seat): PresenceEntry | undefined {
    if (seat.client === undefined) return undefined;
    const spoken = this.spoken.get(seat.client);
    if (spoken === undefined || spoken.seat !== seat) return undefined;
    this.spoken.delete(seat.client);
    if (spoken.entry.state === "null") return undefined;
    return { client: seat.client, clock: spoken.entry.clock, state: "null" };
  }

  /**
   * Takes in what another node passed on. Answers the entries that are news here, in the order of
   * their clocks: a node may notice late that a page has gone on to another one. A page of this
   * node that is taken for gone is told so too, and says itself that it is not. `mayBe` gives an id
   * that is nobody's to a member, and says whether it is theirs: what comes under another's is
   * dropped.
   */
  hearElsewhere(
    bytes: Uint8Array,
    mayBe: (client: number, member: MemberId) => boolean,
    nowMs = performance.now(),
  ): readonly PresenceEntry[] {
    const isFit = (entry: PresenceEntry) => {
      const member = memberIn(entry);
      return member === undefined || mayBe(entry.client, member);
    };
    const news = readEntries(bytes).filter((entry) => isFit(entry) && this.isNews(entry));
    for (const entry of news) {
      const isHere = entry.clock === this.spoken.get(entry.client)?.entry.clock;
      if (!isHere) this.elsewhere.set(entry.client, { entry, atMs: nowMs });
    }
    return news;
  }

  /**
   * Forgets pages at other nodes that nobody speaks for any more, as when their node died. Answers
   * the entries that take their states back: whoever came late would go on counting from then.
   */
  forgetSilent(nowMs = performance.now()): readonly PresenceEntry[] {
    const silent = [...this.elsewhere.values()].filter(({ atMs }) => nowMs - atMs > elsewhereMs);
    for (const { entry } of silent) this.elsewhere.delete(entry.client);
    return presentAmong(silent).map((entry) => ({ ...entry, state: "null" }));
  }

  /** Everybody present, as a newcomer is told. */
  frame(): Uint8Array {
    const here = [...this.spoken.values()].filter(
      ({ entry: { client, clock } }) => clock >= (this.elsewhere.get(client)?.entry.clock ?? 0),
    );
    return awarenessFrame(presentAmong([...here, ...this.elsewhere.values()]));
  }

  /** Everybody present at this node. */
  ownFrame(): Uint8Array {
    return awarenessFrame(presentAmong([...this.spoken.values()]));
  }

  /** Whether a page would take it, which knows all that was said here and passed here. */
  private isNews({ client, clock, state }: PresenceEntry): boolean {
    return [this.spoken.get(client), this.elsewhere.get(client)].every((known) => {
      if (known === undefined || clock > known.entry.clock) return true;
      return clock === known.entry.clock && state === "null" && known.entry.state !== "null";
    });
  }

  /** A page that comes back before its dead socket is noticed takes its id over. */
  private take(seat: Seat, client: number): void {
    const before = this.spoken.get(client);
    if (before !== undefined) before.seat.client = undefined;
    seat.client = client;
  }
}

function presentAmong(all: readonly { readonly entry: PresenceEntry }[]): readonly PresenceEntry[] {
  return all.map(({ entry }) => entry).filter(({ state }) => state !== "null");
}
