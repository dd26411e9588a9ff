/** Which version this is, as its package says. */
import { readFileSync } from "node:fs";

/** Such as "0.1.0". Throws when the package says none: it is not whole then. */
export function ownVersion(): string {
  const path = new URL("../../package.json", import.meta.url);
  const manifest: unknown = JSON.parse(readFileSync(path, "utf8"));
  const isKnown = typeof manifest === "object" && manifest !== null && "version" in manifest;
  if (!isKnown || typeof manifest.version !== "string") throw new Error("a package has a version");
  return manifest.version;
}
