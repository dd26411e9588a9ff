/** W1: boards from one address are counted by the minute and by the day, whoever makes them. */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { copyOf } from "@halflap/board/copy";
import { emptyDocuments } from "@halflap/board/documents";
import { boardsPerAddressDaily } from "@halflap/wire/limits";
import { Hono } from "hono";
import { expect, test } from "vitest";
import { openStore } from "../store/sqlite/store.ts";
import { Refused, refusalAnswer } from "./answers.ts";
import { boardRoutes } from "./boards.ts";
import type { RoutePorts } from "./ports.ts";
import { Sessions } from "./session.ts";

const body = JSON.stringify({ name: "Ada", copy: copyOf(emptyDocuments()) });
const headers = { "content-type": "application/json" };
const minuteMs = 60_000;

test("an address makes so many boards in a day, and another goes on", async () => {
  const folder = mkdtempSync(join(tmpdir(), "halflap-boards-"));
  let [now, address] = [0, "198.51.100.1"];
  const store = openStore({ path: join(folder, "boards.sqlite"), pagesMax: undefined }, () => now);
  const { people, takes } = store;
  const ports = {
    ...{ people, takes, sessions: new Sessions(people, false) },
    ...{ now: () => now, addressOf: () => address },
  };
  const app = new Hono();
  app.onError((fault) => {
    if (fault instanceof Refused) return refusalAnswer(fault);
    throw fault;
  });
  app.route("/", boardRoutes(ports as unknown as RoutePorts));
  // Without a cookie everybody is somebody new.
  const make = async () => (await app.request("/boards", { method: "POST", body, headers })).status;

  let made = 0;
  for (let minute = 0; minute < 60; minute += 1) {
    while ((await make()) === 201) made += 1;
    now += minuteMs;
  }
  const earned = Math.ceil(boardsPerAddressDaily / 24); // in the hour that passed
  expect(made).toBeGreaterThanOrEqual(boardsPerAddressDaily);
  expect(made).toBeLessThanOrEqual(boardsPerAddressDaily + earned);
  expect(await make()).toBe(429);
  address = "198.51.100.2";
  expect(await make()).toBe(201);
  address = "198.51.100.1";
  now += 24 * 60 * minuteMs;
  expect(await make()).toBe(201);
  await store.close();
  rmSync(folder, { recursive: true });
});
