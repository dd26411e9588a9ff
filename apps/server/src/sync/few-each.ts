/** Lets so many of each asker through at once; their others wait until one of those has ended. */

type Asking = { inside: number; readonly waiting: Set<() => void> };

/** One for each thing that is asked for. */
export class FewEach {
  private readonly askings = new Map<string, Asking>();
  private readonly most: number;

  constructor(most: number) {
    this.most = most;
  }

  /** Resolves with what ends it, called once; with undefined when `signal` gives up before. */
  enter(asker: string, signal: AbortSignal): Promise<(() => void) | undefined> {
    const asking = this.askings.get(asker) ?? { inside: 0, waiting: new Set() };
    this.askings.set(asker, asking);
    return new Promise((resolve) => {
      const begin = () => {
        asking.waiting.delete(begin);
        signal.removeEventListener("abort", giveUp);
        asking.inside += 1;
        resolve(() => this.leave(asker, asking));
      };
      const giveUp = () => {
        asking.waiting.delete(begin);
        resolve(undefined);
      };
      if (asking.inside < this.most) begin();
      else {
        asking.waiting.add(begin);
        signal.addEventListener("abort", giveUp);
      }
    });
  }

  private leave(asker: string, asking: Asking): void {
    asking.inside -= 1;
    const [next] = asking.waiting;
    if (next !== undefined) next();
    else if (asking.inside === 0) this.askings.delete(asker);
  }
}
