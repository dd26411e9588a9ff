/** What axe finds wrong with a page as it stands. */
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import type { Page } from "@playwright/test";

const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

type Fault = { readonly id: string; readonly impact: string; readonly nodes: unknown[] };

/** What axe calls serious or critical, each with the elements concerned. */
export async function faults(page: Page): Promise<readonly string[]> {
  await page.evaluate(axe);
  const found = await page.evaluate<readonly Fault[]>(
    "axe.run().then(({ violations }) => violations.map(({ id, impact, nodes }) => " +
      "({ id, impact, nodes: nodes.map(({ target }) => target) })))",
  );
  return found
    .filter(({ impact }) => impact === "serious" || impact === "critical")
    .map(({ id, nodes }) => `${id}: ${JSON.stringify(nodes.slice(0, 3))}`);
}
