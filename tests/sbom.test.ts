/**
 * The bill of materials names each package of the lock file with its version, its licence and the
 * hash of what was installed; no licence of what runs asks for more than a notice.
 */
import { spawnSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { root } from "./support/sources.ts";

type Component = {
  readonly "bom-ref": string;
  readonly purl?: string;
  readonly hashes?: readonly unknown[];
  readonly licenses?: readonly {
    readonly license?: { readonly id?: string };
    readonly expression?: string;
  }[];
};

/** What runs may be under, and nothing else. */
const permissive = new Set([
  ...["MIT", "ISC", "0BSD", "Apache-2.0", "BSD-2-Clause", "BSD-3-Clause"],
  ...["OFL-1.1", "(MIT OR WTFPL)", "(BSD-2-Clause OR MIT OR Apache-2.0)"],
]);

function bill(...words: readonly string[]) {
  const made = spawnSync(process.execPath, ["scripts/sbom.mjs", ...words], {
    cwd: root,
    encoding: "utf8",
    maxBuffer: 64 * 1024 * 1024,
  });
  expect(made.stderr).toBe("");
  return JSON.parse(made.stdout) as {
    readonly bomFormat: string;
    readonly specVersion: string;
    readonly metadata: { readonly component: { readonly name: string } };
    readonly components: readonly Component[];
  };
}

/** `name@version` of the packages in the lock file that come from outside. */
function locked(isWanted: (entry: { readonly dev?: boolean }) => boolean): readonly string[] {
  const { packages } = JSON.parse(readFileSync(`${root}package-lock.json`, "utf8"));
  return Object.entries<{ version: string; link?: boolean; dev?: boolean }>(packages)
    .filter(([path, entry]) => path.includes("node_modules/") && !entry.link && isWanted(entry))
    .map(([path, { version }]) => `${path.split("node_modules/").at(-1)}@${version}`);
}

function licenceOf({ licenses = [] }: Component): string | undefined {
  const [first] = licenses;
  return first?.license?.id ?? first?.expression;
}

/** What is wrong with a component of those that run. */
function faultOf(component: Component): string | undefined {
  const licence = licenceOf(component);
  const isOurs = component["bom-ref"].startsWith("@halflap/");
  if (licence === undefined) return `${component["bom-ref"]} has no licence`;
  if (!permissive.has(licence)) return `${component["bom-ref"]} is under ${licence}`;
  const isNamed = component.purl !== undefined && (isOurs || component.hashes !== undefined);
  return isNamed ? undefined : `${component["bom-ref"]} can't be told from others`;
}

test("everything that runs is in it, each under a licence that asks for a notice alone", () => {
  const { bomFormat, specVersion, metadata, components } = bill();
  expect([bomFormat, specVersion, metadata.component.name]).toEqual([
    "CycloneDX",
    "1.5",
    "halflap",
  ]);
  const refs = components.map((component) => component["bom-ref"]);
  expect(refs).toEqual(expect.arrayContaining([...locked(({ dev }) => dev !== true)]));
  const others = ["@halflap/server@0.1.0", "@fontsource-variable/source-sans-3@5.3.1"];
  expect(refs).toEqual(expect.arrayContaining(others));
  expect(components.flatMap((component) => faultOf(component) ?? [])).toEqual([]);
});

test("with the tools, it is the whole lock file, each with a licence", () => {
  const { components } = bill("--all");
  const refs = new Set(components.map((component) => component["bom-ref"]));
  expect(locked(() => true).filter((name) => !refs.has(name))).toEqual([]);
  expect(components.filter((component) => licenceOf(component) === undefined)).toEqual([]);
});

test("a part without a licence, under a stricter one, or without a hash is caught", () => {
  const part = { "bom-ref": "a@1.0.0", purl: "pkg:npm/a@1.0.0" };
  const under = (id: string) => ({ ...part, hashes: [{}], licenses: [{ license: { id } }] });
  const { hashes: _hashes, ...unhashed } = under("MIT");
  expect([part, under("AGPL-3.0-only"), unhashed].map(faultOf)).not.toContain(undefined);
  expect(faultOf(under("MIT"))).toBeUndefined();
});
