/** The one command of the README: it starts the server, and whoever ends it ends the server. */
import { type ChildProcess, spawn } from "node:child_process";
import { once } from "node:events";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, expect, test } from "vitest";
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
