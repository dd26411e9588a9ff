/** The `halflap` command as a child process, with what it wrote and how it ended. */
import { spawn } from "node:child_process";
import { once } from "node:events";
import { fileURLToPath } from "node:url";

const binary = fileURLToPath(new URL("../../apps/cli/bin/halflap.mjs", import.meta.url));

export type Ended = { readonly exit: number | null; readonly out: string; readonly err: string };

/** Runs `halflap` with these arguments, standard input and variables, to its end. */
export async function runHalflap(
  args: readonly string[],
  input = "",
  variables: Readonly<Record<string, string>> = {},
): Promise<Ended> {
  const env = { ...process.env, ...variables };
  const child = spawn(process.execPath, [binary, ...args], { stdio: "pipe", env });
  let out = "";
  let err = "";
  child.stdout.setEncoding("utf8").on("data", (text: string) => {
    out += text;
  });
  child.stderr.setEncoding("utf8").on("data", (text: string) => {
    err += text;
  });
  // A command that refuses its arguments ends before it has read anything.
  child.stdin.on("error", () => undefined);
  child.stdin.end(input);
  await once(child, "close");
  return { exit: child.exitCode, out, err };
}
