/** A board with its pages on a stage: they work while things fail; in the end all is compared. */
import type { DocumentName } from "@halflap/board/documents";
import { stateOf } from "../soak/schedule.ts";
import { type Band, type Bandmate, claimLane, makeBand } from "../support/band.ts";
import { Visitor } from "../support/browser-session.ts";
import type { Chance } from "../support/seeded.ts";
import { deletionsSavedAndLost, differing, faultsIn, savedAndLost } from "./checker.ts";
import { answerOf, type Evidence, type Held, readLogs, replay } from "./evidence.ts";
import { History } from "./history.ts";
import { Page, type PageOptions } from "./page.ts";
import type { Stage } from "./stage.ts";

/** One wait; a machine that was busy counts it once, however long it took. */
export const tickMs = 100;
/** A minute: what is not equal by then never will be. */
export const ticksMax = 600;
const stepMs = 15;

/** Restless pages also lose their line, go elsewhere and load again; steady ones only edit. */
export type Mood = "restless" | "steady";

export type SceneOptions = Pick<PageOptions, "wrongly">;

export class Scene {
  readonly history = new History();
  private readonly all: readonly Page[];
  readonly band: Band;
  private readonly stage: Stage;
  private readonly chance: Chance;
  private readonly gone = new Set<Page>();
  /** Nodes that pages keep away from. */
  private readonly shunned = new Set<number>();

  private constructor(stage: Stage, chance: Chance, band: Band, { wrongly }: SceneOptions) {
    this.stage = stage;
    this.chance = chance;
    this.band = band;
    const { leader, player, listener } = band;
    const page = (who: Bandmate, document: DocumentName, canWrite: boolean) => {
      const name = `${who.me.name}-${document}`;
      const visitorAt = (node: number) => this.at(node, who);
      const pickNode = () => this.pickNode();
      const { history } = this;
      const common = { name, document, canWrite, history, visitorAt, pickNode, wrongly };
      return new Page({ ...common, board: band.board });
    };
    this.all = [
      page(leader, "board", true),
      page(player, "board", true),
      page(leader, "lane-upper", true),
      page(player, "lane-lower", true),
      page(listener, "board", false),
      page(listener, "lane-upper", false),
      page(listener, "lane-lower", false),
    ];
  }

  /** A new board, with everybody in it, each at some node. */
  static async open(stage: Stage, chance: Chance, options: SceneOptions = {}): Promise<Scene> {
    const band = await makeBand(stage.node(0).door.address);
    await claimLane(band.leader, band.board, "upper");
    await claimLane(band.player, band.board, "lower");
    const scene = new Scene(stage, chance, band, options);
    stage.beforeClose(() => scene.end());
    for (const [i, page] of scene.pages.entries()) page.open(i % stage.nodes.length);
    await scene.untilEqual();
    return scene;
  }

  /** Those that are not gone for good. */
  get pages(): readonly Page[] {
    return this.all.filter((page) => !this.gone.has(page));
  }

  /** The page of that name; `Ada-board` is one. */
  page(name: string): Page {
    const found = this.pages.find(({ options }) => options.name === name);
    if (found === undefined) throw new Error(`there is no page ${name}`);
    return found;
  }

  /** A page that leaves and does not come again, with what it holds. */
  retire(page: Page): void {
    page.end();
    this.gone.add(page);
  }

  /** The same browser at a node. */
  at(node: number, { visitor }: Bandmate): Visitor {
    const same = new Visitor(this.stage.node(node).door.address);
    same.cookie = visitor.cookie;
    return same;
  }

  writers(document?: DocumentName): readonly Page[] {
    return this.pages.filter(
      ({ options }) => options.canWrite && (document ?? options.document) === options.document,
    );
  }

  /** From here on no page goes to a node by itself, or again. */
  shun(node: number, isShunned: boolean): void {
    if (isShunned) this.shunned.add(node);
    else this.shunned.delete(node);
  }

  /** So many steps: most are edits. */
  async work(steps: number, mood: Mood = "restless"): Promise<void> {
    const { chance } = this;
    for (let step = 0; step < steps; step += 1) {
      const page = chance.pick(this.pages);
      const dice = mood === "restless" ? chance.below(100) : 100;
      if (dice < 3) page.cut();
      else if (dice < 6) page.open(this.pickNode());
      else if (dice < 8) page.reload();
      else if (chance.below(6) > 0) chance.pick(this.writers()).edit(chance);
      else chance.pick(this.writers()).remove(chance);
      await passed(stepMs);
    }
  }

  /**
   * Waits until all that was written is said to be saved and everybody holds what the log tells.
   * Answers after how many ticks; undefined when they were over before.
   */
  untilEqual(most = ticksMax): Promise<number | undefined> {
    return ticksUntil(async () => this.isSettled && (await this.areEqual()), most);
  }

  /** Whether all that was written is said to be saved. */
  get isSettled(): boolean {
    return this.pages.every((page) => page.isSettled);
  }

  /** What was said to be saved until now and is not in the log now. */
  async lost(): Promise<readonly string[]> {
    const { events } = this.history;
    const said = new History(events.slice());
    const logs = await readLogs(this.stage.database, this.band.board);
    return logs.flatMap((log) => [...savedAndLost(said, log), ...deletionsSavedAndLost(said, log)]);
  }

  /**
   * What the checker says of it all; then the pages go. Nodes have so many ticks to read the log to
   * its end: a page may have all that it tells before its node does.
   */
  async close(most = ticksMax): Promise<readonly string[]> {
    let evidence = await this.evidence();
    await ticksUntil(async () => {
      if (differing({ ...evidence, pages: [] }).length === 0) return true;
      evidence = await this.evidence();
      return false;
    }, most);
    const faults = faultsIn(this.history, evidence);
    this.end();
    return faults;
  }

  private end(): void {
    for (const page of this.all) page.end();
  }

  private async areEqual(): Promise<boolean> {
    const logs = await readLogs(this.stage.database, this.band.board);
    const held = this.held();
    return logs.every((log) => {
      const states = held.filter(({ document }) => document === log.document);
      const wanted = states.length === 0 ? "" : stateOf(replay(log));
      return states.every(({ state }) => state === wanted);
    });
  }

  private held(): readonly Held[] {
    return this.pages.map(({ doc, options: { name: who, document } }) => {
      return { who, document, state: stateOf(doc) };
    });
  }

  private async evidence(): Promise<Evidence> {
    const { board, leader } = this.band;
    const documents = ["board", "lane-upper", "lane-lower"] as const;
    const asked = this.stage.nodes.flatMap((_, node) =>
      documents.map(async (document) => {
        const state = await answerOf(this.at(node, leader), board, document);
        return { who: `node ${node}`, document, state };
      }),
    );
    const answers = await Promise.all(asked);
    const pages = this.held();
    return { logs: await readLogs(this.stage.database, board), answers, pages };
  }

  private pickNode(): number {
    const numbers = this.stage.nodes.map((_, number) => number);
    const good = numbers.filter((n) => !this.shunned.has(n) && this.stage.node(n).isUp);
    return this.chance.pick(good.length > 0 ? good : numbers);
  }
}

/** Looks once a tick; answers after how many it was so, undefined when they were over before. */
export async function ticksUntil(
  isSo: () => boolean | Promise<boolean>,
  most = ticksMax,
): Promise<number | undefined> {
  for (let tick = 0; tick < most; tick += 1) {
    if (await isSo()) return tick;
    await passed(tickMs);
  }
  return undefined;
}

/** So many milliseconds, at least. */
export function passed(ms: number): Promise<void> {
  return new Promise((resolve) => setTimeout(resolve, ms));
}
