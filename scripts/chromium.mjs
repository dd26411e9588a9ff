/** Finds a Chromium for the browser tests, or gets one, or says exactly what to install. */
import { spawnSync } from "node:child_process";
import { existsSync } from "node:fs";
import { delimiter, join } from "node:path";
import { root } from "./setup.mjs";

/** What the tests ask of the browser: no sandbox (containers), no traffic of its own. */
export const chromiumArgs = [
  "--no-sandbox",
  "--disable-gpu",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
];

const usualPaths = [
  "/usr/bin/chromium",
  "/usr/bin/chromium-browser",
  "/usr/bin/google-chrome-stable",
  "/usr/bin/google-chrome",
  "/opt/google/chrome/chrome",
  "/Applications/Chromium.app/Contents/MacOS/Chromium",
  "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
  "C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe",
  "C:\\Program Files (x86)\\Google\\Chrome\\Application\\chrome.exe",
  "C:\\Program Files\\Chromium\\Application\\chrome.exe",
];

/**
 * The path of a Chromium on this machine: named by the environment, in a usual place, or downloaded
 * earlier. @returns {string | undefined} */
export function findChromium() {
  const named = process.env.HALFLAP_CHROMIUM ?? process.env.CHROME_PATH;
  if (named !== undefined && named !== "") return existsSync(named) ? named : undefined;
  return usualPaths.find(isBrowser) ?? onPath().find(isBrowser) ?? downloaded().find(isBrowser);
}

/** As findChromium, but installs one when there is none. Undefined when that failed too.
 * @returns {string | undefined} */
export function findOrInstallChromium() {
  const found = findChromium();
  const isNamed = process.env.HALFLAP_CHROMIUM ?? process.env.CHROME_PATH;
  if (found !== undefined || isNamed) return found;
  console.error("No Chromium found: installing one ...");
  if (process.getuid?.() === 0 && existsSync("/usr/bin/apt-get")) {
    runQuietly("apt-get", ["update"]);
    runQuietly("apt-get", ["install", "-y", "--no-install-recommends", "chromium"]);
  }
  if (findChromium() === undefined) {
    runQuietly(process.execPath, [join(root, playwrightCli), "install", "chromium"]);
  }
  return findChromium();
}

/** What to do when there is no browser to be had. */
export function chromiumAdvice() {
  const named = process.env.HALFLAP_CHROMIUM ?? process.env.CHROME_PATH;
  if (named) return `HALFLAP_CHROMIUM or CHROME_PATH names ${named}, but there is no such file.`;
  return [
    "The browser tests need a Chromium, and none could be found or installed. One of these helps:",
    "  Debian, Ubuntu   sudo apt-get install chromium",
    "  Fedora           sudo dnf install chromium",
    "  macOS            brew install --cask chromium",
    "  anywhere         npx playwright install --with-deps chromium",
    "  or name one      HALFLAP_CHROMIUM=/path/to/chromium npm test",
  ].join("\n");
}

const playwrightCli = "node_modules/@playwright/test/cli.js";

function onPath() {
  const names = ["chromium", "chromium-browser", "google-chrome-stable", "google-chrome"];
  const folders = (process.env.PATH ?? "").split(delimiter).filter((folder) => folder !== "");
  return folders.flatMap((folder) => names.map((name) => join(folder, name)));
}

/** Where Playwright keeps its own download. @returns {string[]} */
function downloaded() {
  const code = 'import("@playwright/test").then((p) => console.log(p.chromium.executablePath()))';
  const asked = spawnSync(process.execPath, ["-e", code], { cwd: root, encoding: "utf8" });
  return asked.status === 0 ? [asked.stdout.trim()] : [];
}

/** Whether a file is there and runs: some systems put a mere pointer to a shop under this name.
 * @param {string} path */
function isBrowser(path) {
  if (!existsSync(path)) return false;
  if (process.platform === "win32") return true;
  return spawnSync(path, ["--version"], { timeout: 20_000 }).status === 0;
}

/** @param {string} command @param {readonly string[]} args */
function runQuietly(command, args) {
  spawnSync(command, args, { stdio: ["ignore", "ignore", process.stderr] });
}
