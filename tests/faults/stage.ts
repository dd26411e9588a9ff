/**
 * Three real servers over one PostgreSQL and one Redis, all of this run's own, with a line that can
 * fail before each of them and behind.
 */
import { fileURLToPath } from "node:url";
import { startPostgres, type TestPostgres } from "../support/postgres.ts";
import { startRedis, type TestRedis } from "../support/redis.ts";
import {
  removeTestServer,
  type StartOptions,
  startTestServer,
  type TestServer,
} from "../support/server.ts";
import type { BrokenName } from "./broken-logs.ts";
import { type FaultLine, startFaultLine } from "./fault-line.ts";

export const nodeCount = 3;

/** Stands in each question for the heads of documents, which every look begins with. */
export const headsText = "WITH ORDINALITY AS asked";

const brokenEntry = fileURLToPath(new URL("./broken-server.ts", import.meta.url));

const living = new Set<Node>();

/** One server with its lines. */
export class Node {
  /** By way of here pages come. */
  readonly door: FaultLine;
  readonly database: FaultLine;
  readonly wakes: FaultLine;
  server: TestServer;
  isUp = true;
  private readonly variables: Readonly<Record<string, string>>;
  private broken: BrokenName | undefined;

  private constructor(lines: NodeLines, variables: Variables, server: TestServer) {
    this.door = lines.door;
    this.database = lines.database;
    this.wakes = lines.wakes;
    this.server = server;
    this.variables = { ...variables, HALFLAP_PORT: new URL(server.address).port };
    living.add(this);
  }

  static async start(database: string, redis: string): Promise<Node> {
    const lines = {
      database: await startFaultLine(database),
      wakes: await startFaultLine(redis),
    };
    const variables = {
      HALFLAP_DATABASE_URL: lines.database.address,
      HALFLAP_REDIS_URL: lines.wakes.address,
    };
    const server = await started({ variables });
    return new Node({ ...lines, door: await startFaultLine(server.address) }, variables, server);
  }

  /** SIGKILL. */
  async kill(): Promise<void> {
    this.isUp = false;
    await this.server.kill();
  }

  /** SIGTERM: it stops in order. */
  async stop(): Promise<void> {
    this.isUp = false;
    await this.server.stop();
  }

  /** Starts it again, on the same port. */
  async startAgain(): Promise<void> {
    const { folder } = this.server;
    const { broken, variables } = this;
    this.server = await started(
      broken === undefined
        ? { folder, variables }
        : {
            folder,
            variables: { ...variables, HALFLAP_TEST_BROKEN: broken },
            entry: brokenEntry,
          },
    );
    this.isUp = true;
  }

  /** From here on it is wrong in that way, also when it is started again; undefined = as built. */
  async become(broken: BrokenName | undefined): Promise<void> {
    if (broken === this.broken) return;
    await this.kill();
    this.broken = broken;
    await this.startAgain();
  }

  /** It stands still, until `thaw`. */
  freeze(): void {
    process.kill(this.server.pid, "SIGSTOP");
  }

  thaw(): void {
    process.kill(this.server.pid, "SIGCONT");
  }

  async remove(): Promise<void> {
    await removeTestServer(this.server);
    await Promise.all([this.door, this.database, this.wakes].map((line) => line.close()));
  }
}

const startsMax = 10;

/** A server gives its database less than a second to answer, which a busy machine may need. */
async function started(options: StartOptions): Promise<TestServer> {
  for (let starts = 1; ; starts += 1) {
    try {
      return await startTestServer(options);
    } catch (fault) {
      if (starts === startsMax || !/timeout expired/.test(String(fault))) throw fault;
    }
  }
}

type NodeLines = {
  readonly door: FaultLine;
  readonly database: FaultLine;
  readonly wakes: FaultLine;
};

type Variables = Readonly<Record<string, string>>;

/** One PostgreSQL and one Redis, for several stages one after the other. */
export type Stores = { readonly postgres: TestPostgres; readonly redis: TestRedis };

/** Starts both. */
export async function openStores(): Promise<Stores> {
  const [postgres, redis] = await Promise.all([startPostgres(), startRedis()]);
  return { postgres, redis };
}

/** Ends both and removes what they kept. */
export async function closeStores({ postgres, redis }: Stores): Promise<void> {
  await Promise.all([postgres.remove(), redis.kill()]);
}

let databases = 0;

export class Stage {
  readonly postgres: TestPostgres;
  readonly redis: TestRedis;
  /** The database past all lines. */
  readonly database: string;
  readonly nodes: readonly Node[];
  /** What uses it, to be ended before it. */
  private readonly users = new Set<() => void>();

  private constructor({ postgres, redis }: Stores, database: string, nodes: readonly Node[]) {
    this.postgres = postgres;
    this.redis = redis;
    this.database = database;
    this.nodes = nodes;
  }

  /** Starts the nodes over a new database; the first one makes the tables. */
  static async open(stores: Stores): Promise<Stage> {
    databases += 1;
    const database = stores.postgres.makeDatabase(`boards_${databases}`);
    const start = () => Node.start(database, stores.redis.address);
    const first = await start();
    const others = Array.from({ length: nodeCount - 1 }, start);
    return new Stage(stores, database, [first, ...(await Promise.all(others))]);
  }

  node(number: number): Node {
    const node = this.nodes[number];
    if (node === undefined) throw new Error(`there is no node ${number}`);
    return node;
  }

  /** Has something ended before the stage is. */
  beforeClose(end: () => void): void {
    this.users.add(end);
  }

  /** Ends the nodes and removes what they kept. */
  async close(): Promise<void> {
    for (const end of this.users) end();
    for (const node of this.nodes) living.delete(node);
    await Promise.all(this.nodes.map((node) => node.remove()));
  }
}

/** Lends a stage over stores of its own, and ends both, whatever comes of it. */
export async function onStage(act: (stage: Stage) => Promise<void>): Promise<void> {
  const stores = await openStores();
  try {
    const stage = await Stage.open(stores);
    await act(stage).finally(() => stage.close());
  } finally {
    await closeStores(stores);
  }
}

/** A run that is ended itself leaves no process behind, frozen ones neither. */
process.once("exit", () => {
  for (const { server } of living) if (server.isAlive()) process.kill(server.pid, "SIGKILL");
});
