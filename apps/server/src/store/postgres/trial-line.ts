/** A line to the database for tests, which can be cut and can swallow an answer. */
import { once } from "node:events";
import { createServer, connect as join, type Socket } from "node:net";

/** Listens from `startTrialLine` until it is closed. */
export class TrialLine {
  /** How many answers were swallowed. */
  swallowed = 0;
  private readonly target: URL;
  private readonly server = createServer((near) => this.take(near));
  private readonly open = new Set<Socket>();
  private wanted = "";
  private isCut = false;
  private ended = 0;
  private readonly waiting: { readonly times: number; readonly done: () => void }[] = [];

  constructor(address: string) {
    this.target = new URL(address);
  }

  async listen(): Promise<void> {
    this.server.listen(0, "127.0.0.1");
    await once(this.server, "listening");
  }

  /** The database by way of this line. */
  get address(): string {
    const bound = this.server.address();
    if (bound === null || typeof bound === "string") throw new Error("it does not listen");
    const own = new URL(this.target);
    own.port = String(bound.port);
    return own.href;
  }

  /** The next statement that is this one reaches the database, and the line ends at its answer. */
  swallowAnswerTo(statement: string): void {
    this.wanted = `${statement}\0`; // whole, as the protocol ends it: BEGIN names COMMITTED too
  }

  /** Ends what goes on, and every new attempt until `mend`. */
  async cut(): Promise<void> {
    this.isCut = true;
    this.ended = 0;
    await this.endAll();
  }

  mend(): void {
    this.isCut = false;
  }

  /** Resolves when so many attempts were ended since the cut. */
  tried(times: number): Promise<void> {
    return new Promise((done) => {
      if (this.ended >= times) done();
      else this.waiting.push({ times, done });
    });
  }

  async close(): Promise<void> {
    this.server.close();
    await this.endAll();
  }

  private take(near: Socket): void {
    if (!this.isCut) {
      this.join(near, join(Number(this.target.port), this.target.hostname));
      return;
    }
    near.destroy();
    this.ended += 1;
    for (const { times, done } of this.waiting) if (this.ended >= times) done();
  }

  private join(near: Socket, far: Socket): void {
    let isSwallowing = false;
    const end = () => {
      near.destroy();
      far.destroy();
    };
    near.on("data", (bytes: Buffer) => {
      if (this.wanted !== "" && bytes.includes(this.wanted)) {
        this.wanted = "";
        isSwallowing = true;
      }
      far.write(bytes);
    });
    far.on("data", (bytes: Buffer) => {
      if (isSwallowing) {
        this.swallowed += 1;
        end();
      } else near.write(bytes);
    });
    for (const socket of [near, far]) {
      this.open.add(socket);
      socket.on("error", end);
      socket.on("close", () => {
        this.open.delete(socket);
        end();
      });
    }
  }

  private async endAll(): Promise<void> {
    const living = [...this.open].filter((socket) => !socket.destroyed);
    const gone = living.map((socket) => once(socket, "close"));
    for (const socket of living) socket.destroy();
    await Promise.all(gone);
  }
}

/** A line to the database at an address. */
export async function startTrialLine(address: string): Promise<TrialLine> {
  const line = new TrialLine(address);
  await line.listen();
  return line;
}
