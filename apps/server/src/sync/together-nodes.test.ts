/**
 * W15: playing together at several nodes. Their words cross over a line that loses, doubles and
 * delays them; once it carries again all of them tell the same.
 */
import { memberId } from "@halflap/board/talk";
import type { Me } from "@halflap/wire/api";
import { togetherLastsMs } from "@halflap/wire/limits";
import { decodeTogetherTold, type SharedWish, type Told } from "@halflap/wire/together";
import fc from "fast-check";
import * as decoding from "lib0/decoding";
import { beforeEach, describe, expect, test } from "vitest";
import { decodeRun, encodeRun } from "../wake/crossed-run.ts";
import { Seat } from "./seat.ts";
import { crossingMsMax, elsewhereHoldsMs, Together } from "./together.ts";

const ada: Me = { id: memberId("ada"), name: "Ada", role: "leader" };

let now = 0;

/** How a node does it wrongly, that the tests must catch. */
type Wrong = "is mute about who hears it" | "numbers words as others do";

class Node {
  /** Everything that its pages were told, the last one last. */
  readonly told: (Told | undefined)[] = [];
  /** What it passed and nobody heard yet. */
  readonly passed: Uint8Array[] = [];
  readonly together: Together;
  private readonly seats = [seat(), seat()];

  constructor(wrong?: Wrong) {
    // By itself a node counts its words one by one.
    const nodes = wrong === "numbers words as others do" ? undefined : { withinMs: 0.1 };
    this.together = new Together({
      time: () => ({ ms: now, era: 1, nodes }),
      tell: (frame) => void this.told.push(read(frame)),
      cross: (frame) =>
        void this.passed.push(wrong === "is mute about who hears it" ? muted(frame) : frame),
    });
  }

  ask(wish: SharedWish, who = 0): void {
    this.together.ask(this.seats[who] as Seat, ada, wish);
  }
  hears(isAlong: boolean, who = 0): void {
    this.together.answer(this.seats[who] as Seat, { sentMs: 0, isAlong });
  }
  hear(frame: Uint8Array): void {
    const run = decodeRun(frame);
    if (run !== undefined) this.together.hear(run);
  }
  tells(): Told | undefined {
    return read(this.together.frame());
  }
}

function muted(frame: Uint8Array): Uint8Array {
  const run = decodeRun(frame);
  return run ? encodeRun({ ...run, isAlong: false }) : frame;
}

function seat(): Seat {
  const line = { send: () => undefined, close: () => undefined, buffered: () => 0 };
  return new Seat({ member: ada.id, wantsSaved: true, now: () => now, line });
}

function read(frame: Uint8Array): Told | undefined {
  const decoder = decoding.createDecoder(frame);
  decoding.readVarUint(decoder);
  return decodeTogetherTold(decoder);
}

const play = (percent = 100): SharedWish => {
  return { kind: "playing", tick: 192, atMs: now + 600, percent, countIn: 1, loop: undefined };
};

/** Everything that was passed reaches all others, and what they answer too. */
function carry(nodes: readonly Node[]): void {
  while (nodes.some(({ passed }) => passed.length > 0)) {
    for (const node of nodes) {
      const frames = node.passed.splice(0);
      for (const other of nodes) if (other !== node) for (const one of frames) other.hear(one);
    }
  }
}

/** So long nothing is carried; each node's slow clock runs. */
function pass(nodes: readonly Node[], ms: number): void {
  const end = now + ms;
  while (now < end) {
    now += 2_000;
    for (const { together } of nodes) together.renew();
  }
}

let here: Node;
let there: Node;

beforeEach(() => {
  now = 1e12;
  [here, there] = [new Node(), new Node()];
});

test("W15 a word said at one node is told at the other, and the last one holds", () => {
  here.ask(play(80));
  carry([here, there]);
  expect(there.told).toEqual(here.told);
  there.ask({ kind: "stopped" });
  carry([here, there]);
  expect(here.told).toHaveLength(2);
  expect(there.told).toEqual(here.told);
});

test("W15 a node that asks who is present is told what is played, with its age", () => {
  here.ask(play());
  here.passed.length = 0;
  now += 60_000;
  here.together.pass();
  expect(here.passed.map(decodeRun)).toMatchObject([{ ageMs: 60_000, isAlong: true }]);
  carry([here, there]);
  expect(there.tells()).toEqual(here.tells());
});

test("W15 two words at once: all hold the same one", () => {
  here.ask(play(80));
  there.ask(play(120));
  carry([here, there]);
  expect(here.tells()).toMatchObject({ kind: "word" });
  expect(there.tells()).toEqual(here.tells());
});

test("W15 it goes on while anybody hears it at any node, and ends for all with the last", () => {
  here.ask(play());
  carry([here, there]);
  there.hears(true);
  carry([here, there]);
  here.hears(false);
  carry([here, there]);
  expect(here.tells()).toMatchObject({ kind: "word" });
  for (let i = 0; i < 20; i += 1) {
    pass([here, there], 2_000);
    carry([here, there]);
  }
  expect(here.told).toHaveLength(1);
  there.hears(false);
  carry([here, there]);
  expect(here.told.slice(1)).toEqual([{ kind: "nothing" }]);
  expect(there.told.slice(1)).toEqual([{ kind: "nothing" }]);
});

test("W15 it ends where nobody hears it as soon as the last one left elsewhere", () => {
  const third = new Node();
  here.ask(play());
  carry([here, there, third]);
  for (let i = 0; i < 5; i += 1) {
    pass([here, there, third], 2_000);
    carry([here, there, third]);
  }
  here.hears(false);
  carry([here, there, third]);
  expect(third.told.slice(1)).toEqual([{ kind: "nothing" }]);
});

test("W15 a node that died is not waited for", () => {
  here.ask(play());
  carry([here, there]);
  pass([there], elsewhereHoldsMs - 1_000);
  expect(there.tells()).toMatchObject({ kind: "word" });
  pass([there], 4_000);
  expect(there.told.at(-1)).toEqual({ kind: "nothing" });
});

test("W15 who hears it still takes back an end that another node said too early", () => {
  here.ask(play());
  carry([here, there]);
  there.hears(true);
  there.passed.length = 0; // lost
  now += elsewhereHoldsMs;
  here.hears(false);
  expect(here.told.at(-1)).toEqual({ kind: "nothing" });
  carry([here, there]);
  expect(here.told.at(-1)).toMatchObject({ kind: "word" });
  expect(there.told).toHaveLength(1);
});

test("W15 what was told long ago, or in another time, is let be", () => {
  here.ask(play());
  now += crossingMsMax + 1;
  carry([here, there]);
  expect(there.tells()).toEqual({ kind: "nothing" });
  here.together.pass();
  now -= crossingMsMax + 1;
  carry([here, there]);
  expect(there.tells()).toEqual({ kind: "nothing" });
});

/** Something that happens at one of three nodes, and what becomes of what is on its way. */
const events = fc.array(
  fc.record({
    node: fc.nat(2),
    who: fc.nat(1),
    act: fc.constantFrom("play", "stop", "along", "off", "wait"),
    line: fc.constantFrom("carries", "loses", "doubles", "keeps"),
  }),
  { maxLength: 30 },
);

/** Whether, after the events and a while on a good line, all nodes told the same. */
function agree(wrong?: Wrong) {
  return fc.property(events, (list) => {
    now = 1e12;
    const nodes = [new Node(wrong), new Node(wrong), new Node(wrong)];
    for (const [i, { node, who, act, line }] of list.entries()) {
      const one = nodes[node] as Node;
      if (act === "play") one.ask(play(60 + i), who);
      else if (act === "stop") one.ask({ kind: "stopped" }, who);
      else if (act === "wait") pass(nodes, 2_000);
      else one.hears(act === "along", who);
      if (line === "loses") for (const each of nodes) each.passed.length = 0;
      if (line === "doubles") for (const each of nodes) each.passed.push(...each.passed);
      if (line !== "keeps") carry(nodes);
    }
    for (let i = 0; i < 10; i += 1) {
      pass(nodes, 2_000);
      carry(nodes);
    }
    const last = nodes.map((each) => each.tells());
    const isPlayed = last.some((told) => told?.kind === "word" && told.wish.kind === "playing");
    // A stop that was lost is heard of when somebody plays, or comes; nobody plays until then.
    if (isPlayed) expect(last).toEqual([last[0], last[0], last[0]]);
    for (const each of nodes) {
      expect(each.told.at(-1) ?? { kind: "nothing" }).toEqual(each.tells());
    }
  });
}

describe("over a line that loses, doubles and keeps", () => {
  test("W15 whatever is played is the same everywhere after a while", () => {
    fc.assert(agree(), { numRuns: 400 });
  });

  test.each<Wrong>(["is mute about who hears it", "numbers words as others do"])(
    "a node that %s is caught",
    (wrong) => {
      expect(fc.check(agree(wrong), { numRuns: 400 }).failed).toBe(true);
    },
  );
});

test("W15 a word heard at every node ends with its time, and nobody answers the end", () => {
  const nodes = [here, there, new Node()];
  here.ask(play());
  carry(nodes);
  for (const node of nodes) node.hears(true);
  carry(nodes);
  const end = now + togetherLastsMs;
  let passes = 0;
  while (now < end + 10_000) {
    now += 2_000;
    for (const { together } of nodes) together.renew();
    for (let turn = 0; turn < 50 && nodes.some(({ passed }) => passed.length > 0); turn += 1) {
      for (const node of nodes) {
        const frames = node.passed.splice(0);
        passes += now > end ? frames.length : 0;
        for (const other of nodes) if (other !== node) for (const one of frames) other.hear(one);
      }
    }
  }
  expect(nodes.map((node) => node.tells()?.kind)).toEqual(["nothing", "nothing", "nothing"]);
  expect(nodes.map(({ told }) => told.at(-1)?.kind)).toEqual(["nothing", "nothing", "nothing"]);
  expect(passes).toBeLessThan(10);
});
