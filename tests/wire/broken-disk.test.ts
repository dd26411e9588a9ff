/** A disk that loses what was written ends the server, and the next one has all that was saved. */
import { expect, test } from "vitest";
import { trialDiskEntry } from "../soak/fsync-first.ts";
import { Visitor } from "../support/browser-session.ts";
import { RawClient } from "../support/raw-client.ts";
import { decidedOf, saidIn, say } from "../support/say.ts";
import { removeTestServer, startTestServer } from "../support/server.ts";

test("after a failed sync the server ends, and a new one takes what was not saved", async () => {
  const failing = await startTestServer({
    entry: trialDiskEntry,
    variables: { HALFLAP_TRIAL_SYNC: "failing" },
  });
  const leader = new Visitor(failing.address);
  const { board } = await leader.makeBoard();
  const writer = await RawClient.synced(leader, board, "board");
  say(writer, "kept", 1);
  await writer.until((frame) => frame.kind === "saved" && frame.decided === 1);
  process.kill(failing.pid, "SIGUSR2");
  await failing.logged(/the disk fails/);
  say(writer, "brought again", 2);
  await Promise.all([writer.closed, failing.ended]);
  expect(failing.isAlive()).toBe(false);
  expect(failing.logs()).toMatch(/"store-failed".*"StoreBroken"/);

  const variables = { HALFLAP_PORT: new URL(failing.address).port };
  const server = await startTestServer({ folder: failing.folder, variables });
  const again = await RawClient.synced(leader, board, "board");
  expect(saidIn(again.doc)).toMatchObject({ kept: 1 });
  say(again, "brought again", 2);
  await again.until((frame) => frame.kind === "saved" && frame.decided === 1);
  expect(decidedOf(again)).toBe(1);
  await again.close();
  await removeTestServer(server);
});
