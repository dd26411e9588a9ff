/** W1, rates: they count people, not proxies, and nobody can make up whom they count. */
import { apiPath } from "@halflap/wire/api";
import { memberChangesPerMinute } from "@halflap/wire/limits";
import { expect, test } from "vitest";
import { type Bandmate, makeBand } from "../support/band.ts";
import { refusalOf, Visitor } from "../support/browser-session.ts";
import { removeTestServer, startTestServer } from "../support/server.ts";

/** More than one address may try links in a minute, whatever it earns meanwhile. */
const tries = 300;

/** How many of so many tries with links that don't exist were refused for their number. */
async function tooMany(address: string, forwarded: (turn: number) => string): Promise<number> {
  const visitor = new Visitor(address);
  const once = async (turn: number) => {
    const headers = { origin: address, "x-forwarded-for": forwarded(turn) };
    const body = { secret: "A".repeat(43), name: "Zoe" };
    return refusalOf(await visitor.ask("POST", apiPath.join, body, headers));
  };
  const answers = await Promise.all(Array.from({ length: tries }, (_, turn) => once(turn)));
  expect(answers.every((code) => code === "too-many" || code === "link-unknown")).toBe(true);
  return answers.filter((code) => code === "too-many").length;
}

test("a member changes a name so often in a minute; another one's is taken meanwhile", async () => {
  const server = await startTestServer();
  const { board, leader, listener } = await makeBand(server.address);
  const rename = async ({ visitor }: Bandmate, turn: number) =>
    refusalOf(await visitor.ask("POST", apiPath.name(board), { name: `Name ${turn}` }));
  const begun = performance.now();
  const answers: unknown[] = [];
  for (let i = 0; i < 2 * memberChangesPerMinute; i += 1) answers.push(await rename(listener, i));
  const earned = ((performance.now() - begun) / 60_000) * memberChangesPerMinute;
  const taken = answers.filter((code) => code === undefined).length;
  expect(taken).toBeGreaterThanOrEqual(memberChangesPerMinute);
  expect(taken).toBeLessThanOrEqual(memberChangesPerMinute + Math.ceil(earned));
  expect(answers.filter((code) => code === "too-many")).toHaveLength(answers.length - taken);
  expect(await rename(leader, 0)).toBeUndefined();
  await removeTestServer(server);
});

const someone = (turn: number) => `198.51.100.${turn % 100}`;

test("whoever says to speak for many is counted as one", async () => {
  const server = await startTestServer();
  expect(await tooMany(server.address, someone)).toBeGreaterThan(0);
  await removeTestServer(server);
});

test("behind a trusted proxy each person has a rate of their own", async () => {
  const variables = { HALFLAP_TRUSTED_PROXIES: "127.0.0.0/8" };
  const server = await startTestServer({ variables });
  expect(await tooMany(server.address, someone)).toBe(0);
  expect(await tooMany(server.address, () => "203.0.113.9")).toBeGreaterThan(0);
  // What stands before the address that the proxy saw is the person's own word.
  const madeUp = (turn: number) => `${someone(turn)}, 203.0.113.10`;
  expect(await tooMany(server.address, madeUp)).toBeGreaterThan(0);
  await removeTestServer(server);
});
