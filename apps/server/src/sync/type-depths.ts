/**
 * How deep the content of a document lies in shared types inside one another. Whoever deletes,
 * draws or writes out such a thing walks into it, so one nested without end would end every page
 * that opens it.
 */
import type { Struct, StructId } from "./decoded-update.ts";

/** Runs of one client's clocks with the same depth; the next run starts where one ends. */
type Runs = { readonly starts: number[]; readonly depths: number[]; end: number };

export class TypeDepths {
  /** The depth of the deepest that was noted here. */
  deepest = 0;
  private readonly clients = new Map<number, Runs>();
  private readonly base: TypeDepths | undefined;

  /** Over another one, which stays as it is: for what may yet be refused. */
  constructor(base?: TypeDepths) {
    this.base = base;
  }

  /** Notes a struct whose surroundings are noted; one that is noted already is left. */
  note(struct: Struct): void {
    const runs = this.clients.get(struct.client) ?? { starts: [], depths: [], end: struct.start };
    this.clients.set(struct.client, runs);
    if (struct.end <= runs.end) return;
    const { under } = struct;
    const depth = under === undefined ? 0 : this.of(under.id) + (under.isInside ? 1 : 0);
    this.deepest = Math.max(this.deepest, depth);
    if (runs.depths.at(-1) !== depth) {
      runs.starts.push(Math.max(struct.start, runs.end));
      runs.depths.push(depth);
    }
    runs.end = struct.end;
  }

  /** Whether a client's clocks are noted up to this one, not included. */
  reaches(client: number, end: number): boolean {
    return end <= (this.clients.get(client)?.end ?? 0);
  }

  /** Forgets what lies beyond these clocks: it was on its way and has not arrived. */
  forgetBeyond(clockOf: (client: number) => number): void {
    for (const [client, runs] of this.clients) {
      const clock = clockOf(client);
      if (clock === 0) this.clients.delete(client);
      while ((runs.starts.at(-1) ?? -1) >= clock) {
        runs.starts.pop();
        runs.depths.pop();
      }
      runs.end = Math.min(runs.end, clock);
    }
  }

  /** 0 = straight in the document; so is what is not known here, which is nothing. */
  private of(id: StructId): number {
    const runs = this.clients.get(id.client);
    const isHere = runs !== undefined && id.clock >= (runs.starts[0] ?? Number.POSITIVE_INFINITY);
    if (!isHere) return this.base?.of(id) ?? 0;
    let [low, high] = [0, runs.starts.length];
    while (high - low > 1) {
      const middle = (low + high) >> 1;
      if ((runs.starts[middle] ?? 0) <= id.clock) low = middle;
      else high = middle;
    }
    return runs.depths[low] ?? 0;
  }
}
