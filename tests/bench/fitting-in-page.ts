/**
 * Fitting the demo tune where a page does it: in the built page's own worker, fed as the page feeds
 * it. Times are of the worker's thread, the middle of some runs.
 */
import { readdirSync } from "node:fs";
import { laneIds, type SlotId } from "@halflap/board/board";
import { fillDocuments } from "@halflap/board/copy";
import { demoDraft } from "@halflap/board/demo";
import { documentNames, emptyDocuments } from "@halflap/board/documents";
import { applyLaneEdits } from "@halflap/board/edits/lane-edits";
import { makeReader } from "@halflap/board/read";
import type { FitRequest } from "@halflap/fitter/answer";
import { type Browser, chromium, type Page } from "@playwright/test";
import * as Y from "yjs";
import { chromiumLaunch } from "../support/chromium.ts";
import { removeTestServer, startTestServer } from "../support/server.ts";
import { root } from "../support/sources.ts";
import { type Figure, percentile } from "./figure.ts";
import type { TaskTime } from "./traced-tasks.ts";
import { workerTask } from "./worker-tasks.ts";

const both: FitRequest = { lanes: laneIds, leaning: "plain", answers: 5, bars: undefined };
const runs = 7;
/** The engine takes its time to learn which code is worth its best. */
const warmUps = 4;

/** Whole tunes from nothing, one lane, and after one lock, beside the very first fit. */
export async function fittingInPage(): Promise<readonly Figure[]> {
  const server = await startTestServer();
  const browser = await chromium.launch(chromiumLaunch);
  try {
    const page = await browser.newPage();
    await page.goto(server.address);
    return await figuresIn(browser, page);
  } finally {
    await browser.close();
    await removeTestServer(server);
  }
}

async function figuresIn(browser: Browser, page: Page): Promise<readonly Figure[]> {
  await openWorker(page);
  await untilReady(page);
  const whole = await measured(browser, page, (run) => {
    return [() => feed(page, copyOf(run)), () => fit(page, both)];
  });
  const { first } = whole;
  const lower: FitRequest = { ...both, lanes: ["lower"], answers: 1 };
  const alone = await measured(browser, page, () => [async () => {}, () => fit(page, lower)]);
  const locking = lockingFeed(page);
  const single: FitRequest = { ...both, answers: 1 };
  const again = await measured(browser, page, (run) => {
    const ready = async () => {
      await locking.free();
      await fit(page, single);
      await locking.lock(run);
    };
    return [ready, () => fit(page, single)];
  });
  const baseline = { name: "the first fit of a new worker, its code new too", value: first.worked };
  const figure = (name: string, value: number, budget: number | undefined): Figure => {
    return { name: `${name}, in a page's worker`, unit: "ms", value, budget, baseline };
  };
  return [
    figure("the demo tune in both lanes, five answers, from nothing", whole.worked, 500),
    figure("the same as the clock went", whole.lasted, undefined),
    figure("the lower lane around the upper, whole tune", alone.worked, 50),
    figure("both lanes again after one slot is locked", again.worked, 50),
  ];
}

type Measured = TaskTime & { readonly first: TaskTime };

/** What is made ready and what is measured, by run: the very first, and the middle of the later. */
async function measured(
  browser: Browser,
  page: Page,
  ofRun: (run: number) => readonly [() => Promise<void>, () => Promise<void>],
): Promise<Measured> {
  const tasks: TaskTime[] = [];
  for (let run = 0; run < warmUps + runs; run += 1) {
    const [ready, work] = ofRun(run);
    await ready();
    tasks.push(await workerTask(browser, page, work));
  }
  const [first] = tasks;
  if (first === undefined) throw new Error("nothing was measured");
  const middle = (of: (task: TaskTime) => number) => percentile(tasks.slice(warmUps).map(of), 0.5);
  return { first, worked: middle(({ worked }) => worked), lasted: middle(({ lasted }) => lasted) };
}

/** The same music under a limit that no rule asks here: nothing that is remembered fits it. */
function copyOf(run: number): ReturnType<typeof demoDraft> {
  return { ...demoDraft(), limits: { maskMelody: 11 + run / 100 } };
}

async function openWorker(page: Page): Promise<void> {
  const file = readdirSync(`${root}apps/web/dist/assets`).find((name) =>
    /^fit-worker-.*\.js$/.test(name),
  );
  if (file === undefined) throw new Error("the page is not built: npm run build");
  await page.evaluate((address) => {
    Object.assign(globalThis, { fitting: new Worker(address, { type: "module" }) });
  }, `/assets/${file}`);
}

async function feed(page: Page, copy: ReturnType<typeof demoDraft>): Promise<void> {
  const documents = emptyDocuments();
  fillDocuments(documents, copy);
  const states = documentNames.map((name): readonly [string, readonly number[]] => [
    name,
    [...Y.encodeStateAsUpdate(documents[name])],
  ]);
  await page.evaluate((states) => {
    const documents = Object.fromEntries(
      states.map(([name, bytes]) => [name, new Uint8Array(bytes)]),
    );
    Reflect.get(globalThis, "fitting").postMessage({ kind: "documents", documents });
  }, states);
}

/** The draft in the worker, in which another slot of the lower lane can be locked each time. */
function lockingFeed(page: Page) {
  const documents = emptyDocuments();
  fillDocuments(documents, demoDraft());
  const board = makeReader(documents)();
  const slots = [...board.lanes.lower.grips.keys()];
  const lane = documents["lane-lower"];
  let locked: SlotId | undefined;
  let isFed = false;
  const change = async (slot: SlotId, on: boolean) => {
    const updates: (readonly number[])[] = [];
    const keep = (update: Uint8Array) => void updates.push([...update]);
    lane.on("update", keep);
    applyLaneEdits(lane, [{ kind: "lock", slot, on }], () => undefined);
    lane.off("update", keep);
    await page.evaluate((updates) => {
      for (const bytes of updates) {
        const update = new Uint8Array(bytes);
        const message = { kind: "update", document: "lane-lower", update };
        Reflect.get(globalThis, "fitting").postMessage(message);
      }
    }, updates);
  };
  return {
    async free(): Promise<void> {
      if (!isFed) await feed(page, demoDraft());
      isFed = true;
      if (locked !== undefined) await change(locked, false);
      locked = undefined;
    },
    async lock(run: number): Promise<void> {
      locked = slots[(run * 3) % slots.length];
      if (locked !== undefined) await change(locked, true);
    },
  };
}

/** Resolves when the worker has answered. */
function fit(page: Page, request: FitRequest): Promise<void> {
  return ask(page, { kind: "fit", question: 1, request });
}

/** Resolves when all of the worker is there: it knows no such answer, and says so. */
function untilReady(page: Page): Promise<void> {
  const at = { lane: "upper", slot: "", most: 1 } as const;
  return ask(page, { kind: "why", question: 0, answer: "", at });
}

async function ask(page: Page, question: object): Promise<void> {
  await page.evaluate(
    (question) =>
      new Promise<void>((resolve, reject) => {
        const worker: Worker = Reflect.get(globalThis, "fitting");
        worker.onmessage = ({ data }) => {
          if (data.kind === "failed") reject(new Error(data.words));
          else if (data.kind !== "progress") resolve();
        };
        worker.postMessage(question);
      }),
    question,
  );
}
