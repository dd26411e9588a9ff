/** What can fail, each kind under the name that the history tells: how it begins, how it ends. */
import type { Chance } from "../support/seeded.ts";
import type { FaultLine } from "./fault-line.ts";
import type { Scene } from "./scene.ts";
import type { Stage } from "./stage.ts";

export type Fault = {
  readonly stage: Stage;
  readonly scene: Scene;
  readonly chance: Chance;
};

/** Ends the fault; resolves when all is up again, though not yet equal. */
export type Heal = () => Promise<void>;

type Kind = (fault: Fault) => Promise<Heal>;

/** Steps of work while a node is away, and again once it is back. */
const betweenSteps = 30;

export const kinds = {
  "store paused": async ({ stage, scene }) => {
    stage.postgres.freeze();
    const back = storeGone(
      scene,
      stage.nodes.map((_, node) => node),
    );
    return async () => {
      back();
      stage.postgres.thaw();
    };
  },
  "store crashed": async ({ stage, scene }) => {
    await stage.postgres.crash();
    const back = storeGone(
      scene,
      stage.nodes.map((_, node) => node),
    );
    return async () => {
      back();
      await stage.postgres.start();
    };
  },
  "a node cut off from the store": async (fault) => {
    const { scene, node, database } = oneOf(fault);
    await database.cut();
    const back = storeGone(scene, [node]);
    return async () => {
      back();
      database.heal();
    };
  },
  "a black hole before the store": async (fault) => {
    const { scene, node, database } = oneOf(fault);
    database.hold();
    const back = storeGone(scene, [node]);
    return async () => {
      back();
      database.heal();
    };
  },
  "a slow line to the store": async (fault) => {
    const { database, chance } = oneOf(fault);
    database.delay(10 + chance.below(90));
    return async () => database.heal();
  },
  "replies to commits cut": async ({ stage, chance }) => {
    for (const { database } of stage.nodes) database.cutRepliesToCommits(1 + chance.below(4));
    return async () => {
      for (const { database } of stage.nodes) database.heal();
    };
  },
  "Redis paused": async ({ stage }) => {
    stage.redis.freeze();
    return async () => stage.redis.thaw();
  },
  "Redis killed": async ({ stage }) => {
    await stage.redis.kill();
    return () => stage.redis.start();
  },
  "no wake-ups": async ({ stage }) => {
    await Promise.all(stage.nodes.map(({ wakes }) => wakes.cut()));
    return async () => {
      for (const { wakes } of stage.nodes) wakes.heal();
    };
  },
  "wake-ups lost at one node": (fault) => cutLine(oneOf(fault).wakes),
  "wake-ups late": async ({ stage, chance }) => {
    for (const { wakes } of stage.nodes) wakes.delay(chance.below(400));
    return async () => {
      for (const { wakes } of stage.nodes) wakes.heal();
    };
  },
  "a node frozen": async (fault) => {
    const { one, scene, node } = oneOf(fault);
    one.freeze();
    scene.shun(node, true);
    return async () => {
      one.thaw();
      scene.shun(node, false);
    };
  },
  "a node killed": async (fault) => {
    const { one } = oneOf(fault);
    await one.kill();
    return () => one.startAgain();
  },
  "a node stopped": async (fault) => {
    const { one } = oneOf(fault);
    await one.stop();
    return () => one.startAgain();
  },
  "pages cut off from a node": (fault) => cutLine(oneOf(fault).door),
  "a black hole before a node": async (fault) => {
    const { door, scene, node } = oneOf(fault);
    door.hold();
    scene.shun(node, true);
    return async () => {
      door.heal();
      scene.shun(node, false);
    };
  },
  "a slow line to a node": async (fault) => {
    const { door, chance } = oneOf(fault);
    door.delay(10 + chance.below(200));
    return async () => door.heal();
  },
  // As a new release comes: one after the other, while work goes on at the rest.
  "every node restarted in turn": async ({ stage, scene }) => {
    for (const one of stage.nodes) {
      await one.stop();
      await scene.work(betweenSteps);
      await one.startAgain();
      await scene.work(betweenSteps);
    }
    return async () => undefined;
  },
} satisfies Readonly<Record<string, Kind>>;

export type KindName = keyof typeof kinds;

/** All of them, in one order for ever: a seed tells by it which it means. */
export const kindNames = Object.keys(kinds) as readonly KindName[];

/** Begins a fault; `heal` ends it. Both are in the history. */
export async function inflict(name: KindName, fault: Fault): Promise<Heal> {
  const { history } = fault.scene;
  history.note({ kind: "fault", what: name });
  const heal = await kinds[name](fault);
  return async () => {
    await heal();
    history.note({ kind: "healed", what: name });
  };
}

function oneOf({ stage, scene, chance }: Fault) {
  const node = chance.below(stage.nodes.length);
  const one = stage.node(node);
  const { door, database, wakes } = one;
  return { one, node, door, database, wakes, scene, chance };
}

async function cutLine(line: FaultLine): Promise<Heal> {
  await line.cut();
  return async () => line.heal();
}

/** Takes note that nodes are without their store; what comes back, to be called before the end. */
function storeGone({ history }: Scene, nodes: readonly number[]): () => void {
  for (const node of nodes) history.note({ kind: "store-gone", node });
  return () => {
    for (const node of nodes) history.note({ kind: "store-back", node });
  };
}
