/** The one command of the README: it starts the server, and whoever ends it ends the server. */
import { type ChildProcess, spawn } from "node:child_process";
import { once } from "node:events";
import { mkdtempSync, rmSync } from "node:fs";
import { type AddressInfo, createServer } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { readConfig } from "@halflap/server/config";
import { makeLog } from "@halflap/server/log";
import { fileOf, openAlone } from "@halflap/server/place";
import { startServer } from "@halflap/server/server";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { root } from "../support/sources.ts";

let store = "";
let command: ChildProcess | undefined;
beforeEach(() => {
  store = mkdtempSync(join(tmpdir(), "halflap-start-"));
});
afterEach(() => {
  command?.kill("SIGKILL");
  rmSync(store, { recursive: true, force: true });
});

test("npm start prints the address; SIGTERM to npm stops the server in order", async () => {
  command = spawn("npm", ["start"], {
    cwd: root,
    env: { ...process.env, HALFLAP_PORT: "0", HALFLAP_DATA: store },
    stdio: ["ignore", "pipe", "pipe"],
  });
  const said = listenTo(command);
  const address = (await said.until(/^Halflap is on (\S+)$/m))[1] ?? "";
  expect((await fetch(`${address}/healthz`)).ok).toBe(true);

  command.kill("SIGTERM");
  await said.until(/"event":"stopped"/);
  await said.end;
  await expect(fetch(`${address}/healthz`)).rejects.toThrow();
});

test("a variable that can't be used ends the start, and is named", async () => {
  command = spawn(process.execPath, ["scripts/start.mjs"], {
    cwd: root,
    env: { ...process.env, HALFLAP_PORT: "many", HALFLAP_DATA: store },
    stdio: ["ignore", "pipe", "pipe"],
  });
  const said = listenTo(command);
  const [code] = await once(command, "exit");
  expect(code).toBe(1);
  expect(said.text()).toContain("HALFLAP_PORT must be a whole number");
});

describe("where another has the port", () => {
  const other = createServer();
  let variables: Readonly<Record<string, string>>;
  beforeEach(async () => {
    await once(other.listen(0, "127.0.0.1"), "listening");
    const { port } = other.address() as AddressInfo;
    variables = { HALFLAP_PORT: `${port}`, HALFLAP_DATA: store, HALFLAP_METRICS: "0" };
  });
  afterEach(() => void other.close());

  test("the start says so and ends with 1, for a supervisor to see", async () => {
    command = spawn(process.execPath, ["scripts/start.mjs"], {
      cwd: root,
      env: { ...process.env, ...variables },
      stdio: ["ignore", "pipe", "pipe"],
    });
    const said = listenTo(command);
    const [code] = await once(command, "exit");
    expect(code).toBe(1);
    await said.end;
    expect(said.text()).toMatch(/"event":"start-failed".*EADDRINUSE/);
  });

  test("the store is closed again", async () => {
    const log = makeLog(
      () => undefined,
      () => new Date(),
    );
    await expect(startServer(readConfig(variables), log)).rejects.toThrow("EADDRINUSE");
    expect(() => openAlone(fileOf(store)).close()).not.toThrow();
  });
});

/** What a command says on both its streams, which stay open while anything of it runs. */
function listenTo(child: ChildProcess) {
  let text = "";
  const waiting = new Set<() => void>();
  const end = once(child, "close");
  for (const stream of [child.stdout, child.stderr]) {
    stream?.on("data", (chunk: Buffer) => {
      text += chunk.toString();
      for (const look of waiting) look();
    });
  }
  const until = (pattern: RegExp) =>
    new Promise<RegExpExecArray>((resolve, reject) => {
      const look = () => {
        const found = pattern.exec(text);
        if (found !== null) resolve(found);
      };
      waiting.add(look);
      look();
      end.then(() => reject(new Error(`it ended without saying ${pattern}: ${text}`)));
    });
  return { text: () => text, until, end };
}
