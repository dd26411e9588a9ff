/** Finds PostgreSQL and Redis for the tests of shared stores, or gets them, or says how. */
import { spawnSync } from "node:child_process";
import { existsSync, readdirSync } from "node:fs";
import { delimiter, join } from "node:path";

/** Debian keeps PostgreSQL's programs beside the path, in a folder for each version. */
const debianRoot = "/usr/lib/postgresql";

/**
 * Where the programs are: the folder with PostgreSQL's `initdb` and `postgres`, and Redis' server.
 * @typedef {{ postgres: string | undefined, redis: string | undefined }} Stores
 */

/** What there is on this machine. @returns {Stores} */
export function findStores() {
  const path = (process.env.PATH ?? "").split(delimiter).filter((folder) => folder !== "");
  const versions = existsSync(debianRoot) ? readdirSync(debianRoot) : [];
  const debian = versions
    .sort((a, b) => Number(b) - Number(a))
    .map((version) => join(debianRoot, version, "bin"));
  const hasAll = (/** @type {string} */ folder) =>
    ["initdb", "postgres", "createdb", "pg_isready"].every((name) =>
      existsSync(join(folder, name)),
    );
  return {
    postgres: [...debian, ...path].find(hasAll),
    redis: path.map((folder) => join(folder, "redis-server")).find((file) => existsSync(file)),
  };
}

/** As findStores, but installs what is missing where it may. @returns {Stores} */
export function findOrInstallStores() {
  const found = findStores();
  const missing = [
    ...(found.postgres === undefined ? ["postgresql"] : []),
    ...(found.redis === undefined ? ["redis-server"] : []),
  ];
  const mayInstall = process.getuid?.() === 0 && existsSync("/usr/bin/apt-get");
  if (missing.length === 0 || !mayInstall) return found;
  console.error(`Installing ${missing.join(" and ")} for the tests ...`);
  runQuietly(["update"]);
  runQuietly(["install", "-y", "--no-install-recommends", ...missing]);
  return findStores();
}

/** What to do when one of them can't be had. */
export function storesAdvice() {
  return [
    "The tests of shared stores need PostgreSQL and Redis; one could not be found or installed.",
    "  Debian, Ubuntu   sudo apt-get install postgresql redis-server",
    "  Fedora           sudo dnf install postgresql-server redis",
    "  macOS            brew install postgresql redis",
    "They are started by the tests on ports and folders of their own; none needs to be running.",
  ].join("\n");
}

/** Debian starts what it installs; the tests start their own, so that is forbidden here.
 * @param {readonly string[]} args */
function runQuietly(args) {
  const env = { ...process.env, DEBIAN_FRONTEND: "noninteractive", RUNLEVEL: "1" };
  spawnSync("apt-get", args, { env, stdio: ["ignore", "ignore", process.stderr] });
}
