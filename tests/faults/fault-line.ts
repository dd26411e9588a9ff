/**
 * A TCP line that fails as it is told: slow, cut, a black hole, or dead at one answer. It stands
 * between a node and what the node asks, or between pages and a node.
 */
import { once } from "node:events";
import { createServer, connect as join, type Socket } from "node:net";

/** What goes on at the moment. */
export type LineState = "whole" | "cut" | "held";

/** Listens from `startFaultLine` until it is closed. */
export class FaultLine {
  /** How many answers were cut off since the start. */
  cutReplies = 0;
  private readonly target: URL;
  private readonly server = createServer({ allowHalfOpen: true }, (near) => this.take(near));
  private readonly open = new Set<Socket>();
  private readonly held: Socket[] = [];
  private state: LineState = "whole";
  private delayMs = 0;
  private repliesToCut = 0;
  private onReplyCut: () => void = () => undefined;
  private readonly watchers = new Map<string, Set<() => void>>();

  constructor(address: string) {
    this.target = new URL(address);
  }

  async listen(): Promise<void> {
    this.server.listen(0, "127.0.0.1");
    await once(this.server, "listening");
  }

  /** The same place by way of this line. */
  get address(): string {
    const bound = this.server.address();
    if (bound === null || typeof bound === "string") throw new Error("it does not listen");
    const own = new URL(this.target);
    own.port = String(bound.port);
    return own.pathname === "/" ? own.href.replace(/\/$/, "") : own.href;
  }

  /** Whatever comes from here on arrives so much later, both ways, in order. */
  delay(ms: number): void {
    this.delayMs = ms;
  }

  /** Ends what goes on, and each new attempt until `heal`. */
  async cut(): Promise<void> {
    this.state = "cut";
    await this.endAll();
  }

  /**
   * A black hole: connections stay and new ones are accepted, and nothing passes. What was sent
   * meanwhile goes on when it is healed, as TCP sends again what nobody took, and also when its
   * sender has given up by then.
   */
  hold(): void {
    this.state = "held";
    for (const socket of this.open) socket.pause();
  }

  /** All is well from here on, also for connections that were held. */
  heal(): void {
    this.state = "whole";
    this.delayMs = 0;
    this.repliesToCut = 0;
    for (const near of this.held.splice(0)) this.join(near);
    for (const socket of this.open) socket.resume();
  }

  /**
   * Of the next so many transactions that write, the commit reaches the database, and the
   * connection ends at its answer: then each time `onCut` is called.
   */
  cutRepliesToCommits(times: number, onCut: () => void = () => undefined): void {
    this.repliesToCut = times;
    this.onReplyCut = onCut;
  }

  /** Calls back each time that this text goes towards the target; what comes back ends it. */
  watch(text: string, seen: () => void): () => void {
    const all = this.watchers.get(text) ?? new Set();
    this.watchers.set(text, all.add(seen));
    return () => void all.delete(seen);
  }

  async close(): Promise<void> {
    this.server.close();
    for (const near of this.held.splice(0)) near.destroy();
    await this.endAll();
  }

  private take(near: Socket): void {
    near.on("error", () => near.destroy());
    if (this.state === "cut") near.destroy();
    else if (this.state === "held") this.held.push(near.pause());
    else this.join(near);
  }

  private join(near: Socket): void {
    const { hostname, port } = this.target;
    const far = join({ port: Number(port), host: hostname, allowHalfOpen: true });
    const commits = new Commits();
    let isCutting = false;
    const end = () => {
      near.destroy();
      far.destroy();
    };
    this.pass(near, far, (bytes) => {
      for (const [text, seen] of this.watchers) {
        if (seen.size > 0 && bytes.includes(text)) for (const tell of [...seen]) tell();
      }
      if (commits.isCommit(bytes) && this.repliesToCut > 0) {
        this.repliesToCut -= 1;
        isCutting = true;
      }
      return true;
    });
    this.pass(far, near, () => {
      if (!isCutting) return true;
      this.cutReplies += 1;
      end();
      this.onReplyCut();
      return false;
    });
    for (const socket of [near, far]) {
      this.open.add(socket);
      socket.on("error", end);
      socket.on("close", () => {
        this.open.delete(socket);
        if (socket === far) end();
      });
    }
  }

  /** One direction; `look` sees the bytes first. */
  private pass(from: Socket, to: Socket, look: (bytes: Buffer) => boolean): void {
    let last = Promise.resolve();
    const after = (act: () => void) => {
      const due = performance.now() + this.delayMs;
      last = last.then(async () => {
        const left = due - performance.now();
        if (left > 0) await new Promise((resolve) => setTimeout(resolve, left));
        if (!to.destroyed) act();
      });
    };
    from.on("data", (bytes: Buffer) => {
      if (look(bytes)) after(() => void to.write(bytes));
    });
    from.on("end", () => after(() => void to.end()));
  }

  private async endAll(): Promise<void> {
    const living = [...this.open].filter((socket) => !socket.destroyed);
    const gone = living.map((socket) => once(socket, "close"));
    for (const socket of living) socket.destroy();
    await Promise.all(gone);
  }
}

/** Starts a line to an address. */
export async function startFaultLine(address: string): Promise<FaultLine> {
  const line = new FaultLine(address);
  await line.listen();
  return line;
}

/** The statements of one connection to PostgreSQL, as far as transactions that write go. */
class Commits {
  private isWriting = false;

  /** Whether these bytes end a transaction that writes. */
  isCommit(bytes: Buffer): boolean {
    if (bytes.includes("READ COMMITTED\0")) this.isWriting = true;
    if (!this.isWriting || !bytes.includes("COMMIT\0")) return false;
    this.isWriting = false;
    return true;
  }
}
