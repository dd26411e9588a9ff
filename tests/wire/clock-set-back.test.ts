/** A wall clock that is set back, as by hand or by the network, delays nothing. */
import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";
import { Visitor } from "../support/browser-session.ts";
import { documentsOnDisk } from "../support/disk.ts";
import { RawClient } from "../support/raw-client.ts";
import { saidIn, say } from "../support/say.ts";
import { removeTestServer, startTestServer } from "../support/server.ts";

const entry = fileURLToPath(new URL("../soak/clock-set-back-server.ts", import.meta.url));

test("edits are stored and said to be saved after the clock was set back", async () => {
  const server = await startTestServer({ entry });
  const leader = new Visitor(server.address);
  const { board } = await leader.makeBoard();
  const client = await RawClient.synced(leader, board, "board");
  say(client, "before", 1);
  await client.until((frame) => frame.kind === "saved" && frame.decided === 1);
  process.kill(server.pid, "SIGUSR2");
  await server.logged(/the clock is set back/);
  for (const decided of [2, 3]) {
    say(client, `after ${decided}`, 1);
    await client.until((frame) => frame.kind === "saved" && frame.decided === decided);
  }
  const stored = saidIn(documentsOnDisk(server, board).board);
  expect(stored).toMatchObject({ before: 1, "after 2": 1, "after 3": 1 });
  await client.close();
  await removeTestServer(server);
});
