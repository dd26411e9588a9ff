/**
 * What must stand before anything runs: a Node that is new enough, the packages, the fitter's
 * kernel, the built page.
 */
import { spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import { existsSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { kernel, kernelCommand, weighKernel } from "./kernel.mjs";

/** The repository's own folder. */
export const root = fileURLToPath(new URL("..", import.meta.url));

const stampFile = join(root, "node_modules", ".halflap-setup.json");

/**
 * Everything a start or a test needs; each step is skipped when nothing changed since the last
 * time.
 */
export function setUp() {
  requireNode();
  installPackages();
  buildKernel();
  buildPage();
}

/** Ends the process with a sentence when this Node is older than package.json asks for. */
export function requireNode() {
  const asked = JSON.parse(readFileSync(join(root, "package.json"), "utf8")).engines.node;
  const [major = 0, minor = 0] = asked.replace(">=", "").split(".").map(Number);
  const [ownMajor = 0, ownMinor = 0] = process.versions.node.split(".").map(Number);
  if (ownMajor > major || (ownMajor === major && ownMinor >= minor)) return;
  console.error(
    `Halflap needs Node ${major}.${minor} or newer; this is Node ${process.versions.node}.`,
  );
  console.error("Install a current Node from https://nodejs.org and run the same command again.");
  process.exit(1);
}

/** Runs `npm ci` when the lock file, the Node ABI or the machine is another than last time. */
export function installPackages() {
  const lock = readFileSync(join(root, "package-lock.json"));
  const key = [sha256([lock]), process.versions.modules, process.platform, process.arch].join(" ");
  if (readStamp().packages === key) return;
  console.error("Setting up: installing packages (the first time takes a minute or two) ...");
  run(npm(), ["ci", "--include=dev", "--no-audit", "--no-fund"], root);
  writeStamp({ packages: key });
}

/** Compiles the fitter's kernel when its source or its compiler is another than last time. */
export function buildKernel() {
  const compiler = "node_modules/assemblyscript/package.json";
  const parts = [...kernel.sources, "scripts/kernel.mjs", compiler];
  const key = sha256(parts.map((path) => readFileSync(join(root, path))));
  if (existsSync(join(root, kernel.built)) && readStamp().kernel === key) return;
  console.error("Setting up: compiling the fitter's kernel ...");
  const [command, ...args] = kernelCommand(root);
  run(command, args, root);
  weighKernel(root);
  writeStamp({ ...readStamp(), kernel: key });
}

/** Builds the page when a source of it is another than last time. */
export function buildPage() {
  const sources = pageSources().map((path) => `${path}\n${readFileSync(join(root, path))}`);
  const key = sha256(["production", ...sources]);
  const isBuilt = existsSync(join(root, "apps/web/dist/index.html"));
  if (isBuilt && readStamp().page === key) return;
  console.error("Setting up: building the page ...");
  const vite = join(root, "node_modules/vite/bin/vite.js");
  // A NODE_ENV of the caller's would make a page for development: larger, and never offline.
  const built = { ...process.env, NODE_ENV: "production" };
  run(process.execPath, [vite, "build", "--logLevel", "warn"], join(root, "apps/web"), built);
  writeStamp({ ...readStamp(), page: key });
}

/** @returns {string[]} what the page is made of, as paths from the root */
function pageSources() {
  const folders = [
    "apps/web",
    ...readdirSync(join(root, "packages")).map((name) => `packages/${name}`),
  ];
  return ["package-lock.json", "scripts/kernel.mjs", ...folders.flatMap(filesBelow)].filter(
    (path) => !/\.test\.tsx?$|\.tsbuildinfo$/.test(path),
  );
}

/** @param {string} folder @returns {string[]} */
function filesBelow(folder) {
  const entries = readdirSync(join(root, folder), { withFileTypes: true });
  return entries
    .filter((entry) => entry.name !== "dist" && entry.name !== "node_modules")
    .sort((a, b) => (a.name < b.name ? -1 : 1))
    .flatMap((entry) => {
      const path = `${folder}/${entry.name}`;
      return entry.isDirectory() ? filesBelow(path) : [path];
    });
}

/** @param {readonly (string | Buffer)[]} parts */
function sha256(parts) {
  const hash = createHash("sha256");
  for (const part of parts) hash.update(part).update("\0");
  return hash.digest("hex");
}

/** The npm that started us, or the one on the path. @returns {string} */
function npm() {
  return process.env.npm_execpath ?? (process.platform === "win32" ? "npm.cmd" : "npm");
}

/** Runs a command with its output on the error stream; ends the process when it fails.
 * @param {string} command @param {readonly string[]} args @param {string} cwd
 * @param {NodeJS.ProcessEnv} [env] */
function run(command, args, cwd, env = process.env) {
  const isScript = /\.[cm]?js$/.test(command);
  const program = isScript ? process.execPath : command;
  const done = spawnSync(program, isScript ? [command, ...args] : args, {
    cwd,
    env,
    stdio: ["ignore", process.stderr, process.stderr],
    shell: program.endsWith(".cmd"),
  });
  if (done.status === 0) return;
  console.error(`Setting up failed at: ${command} ${args.join(" ")}`);
  process.exit(1);
}

/** @returns {{ packages?: string, kernel?: string, page?: string }} */
function readStamp() {
  try {
    return JSON.parse(readFileSync(stampFile, "utf8"));
  } catch {
    return {};
  }
}

/** @param {{ packages?: string, kernel?: string, page?: string }} stamp */
function writeStamp(stamp) {
  writeFileSync(stampFile, JSON.stringify(stamp));
}
