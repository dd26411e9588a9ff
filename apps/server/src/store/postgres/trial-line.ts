/** A line to the database for tests, which can be cut and can swallow an answer. */
import { once } from "node:events";
import { createServer, connect as join, type Socket } from "node:net";

export type TrialLine = {
  /** The database by way of this line. */
  readonly address: string;
  /** How many answers were swallowed. */
  readonly swallowed: number;
  /** The next statement with this text reaches the database, and the line ends at its answer. */
  swallowAnswerTo(statement: string): void;
  /** Ends what goes on, and every new attempt until `mend`. */
  cut(): Promise<void>;
  mend(): void;
  /** Resolves when so many attempts were ended since the cut. */
  tried(times: number): Promise<void>;
  close(): Promise<void>;
};

/** A line to the database at an address. */
export async function startTrialLine(address: string): Promise<TrialLine> {
  const target = new URL(address);
  const open = new Set<Socket>();
  const state = { wanted: "", swallowed: 0, isCut: false, ended: 0 };
  const waiting: { times: number; done: () => void }[] = [];
  const server = createServer((near) => {
    if (state.isCut) {
      near.destroy();
      state.ended += 1;
      for (const one of waiting) if (state.ended >= one.times) one.done();
      return;
    }
    const far = join(Number(target.port), target.hostname);
    let isSwallowing = false;
    const end = () => {
      near.destroy();
      far.destroy();
    };
    near.on("data", (bytes: Buffer) => {
      if (state.wanted !== "" && bytes.includes(state.wanted)) {
        state.wanted = "";
        isSwallowing = true;
      }
      far.write(bytes);
    });
    far.on("data", (bytes: Buffer) => {
      if (!isSwallowing) near.write(bytes);
      else {
        state.swallowed += 1;
        end();
      }
    });
    for (const socket of [near, far]) {
      open.add(socket);
      socket.on("error", end);
      socket.on("close", () => {
        open.delete(socket);
        end();
      });
    }
  });
  server.listen(0, "127.0.0.1");
  await once(server, "listening");
  const bound = server.address();
  if (bound === null || typeof bound === "string") throw new Error("no port to be had");
  const own = new URL(address);
  own.port = String(bound.port);
  const endAll = async () => {
    const all = [...open];
    const gone = all.map((socket) => (socket.destroyed ? undefined : once(socket, "close")));
    for (const socket of all) socket.destroy();
    await Promise.all(gone);
  };
  return {
    address: own.href,
    get swallowed() {
      return state.swallowed;
    },
    swallowAnswerTo(statement) {
      state.wanted = `${statement}\0`; // whole, as the protocol ends it: BEGIN names COMMITTED too
    },
    async cut() {
      state.isCut = true;
      state.ended = 0;
      await endAll();
    },
    mend() {
      state.isCut = false;
    },
    tried: (times) =>
      new Promise((done) => {
        if (state.ended >= times) done();
        else waiting.push({ times, done });
      }),
    async close() {
      server.close();
      await endAll();
    },
  };
}
