/**
 * `npm run sbom [-- --all]`: the packages that Halflap is made of, with versions and licences, as a
 * CycloneDX bill of materials on the standard output: those that run, or with the tools too.
 */
import { spawnSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { root } from "./setup.mjs";

const words = process.argv.slice(2);
if (words.some((word) => word !== "--all")) {
  console.error("npm run sbom [-- --all]");
  process.exit(2);
}
const script = process.env.npm_execpath;
const [command, ...before] = script === undefined ? ["npm"] : [process.execPath, script];
const args = ["sbom", "--sbom-format", "cyclonedx", "--package-lock-only"];
const made = spawnSync(command, [...before, ...args], {
  cwd: root,
  encoding: "utf8",
  maxBuffer: 64 * 1024 * 1024,
  shell: process.platform === "win32" && script === undefined,
});
if (made.status !== 0) {
  console.error(`The bill of materials can't be made: ${made.stderr || made.error?.message}`);
  process.exit(1);
}
const { name } = JSON.parse(readFileSync(join(root, "package.json"), "utf8"));
const bill = JSON.parse(made.stdout);
bill.metadata.component.name = name; // npm takes the name of the folder
/** Tools to npm, but files of theirs go into the page: its face, and what keeps it offline. */
const built = /^(@fontsource-variable\/|workbox-(?!build))/;
const isTool = (/** @type {any} */ { name, properties = [] }) =>
  !built.test(name) &&
  properties.some((/** @type {any} */ each) => each.name === "cdx:npm:package:development");
// npm's own `--omit dev` leaves out what the tests use too.
const parts = words.includes("--all") ? bill.components : bill.components.filter(not(isTool));
const named = new Set([bill.metadata.component, ...parts].map((part) => part["bom-ref"]));
const dependencies = bill.dependencies
  .filter((/** @type {any} */ { ref }) => named.has(ref))
  .map((/** @type {any} */ { ref, dependsOn }) => ({
    ref,
    dependsOn: dependsOn.filter((/** @type {string} */ on) => named.has(on)),
  }));
const told = { ...bill, components: parts, dependencies };
process.stdout.write(`${JSON.stringify(told, undefined, 2)}\n`);

/** @template T @param {(each: T) => boolean} is @returns {(each: T) => boolean} */
function not(is) {
  return (each) => !is(each);
}
