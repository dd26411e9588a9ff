/** A board whose every text is markup and script: it is shown as text, and none of it runs. */
import { type BoardCopy, decodeCopy } from "@halflap/board/copy";
import { demoDraft } from "@halflap/board/demo";
import { apiPath, type BoardId } from "@halflap/wire/api";
import { expect } from "@playwright/test";
import { test } from "../support/browser-test.ts";
import { openDuo } from "../support/duo.ts";
import { removeTestServer, startTestServer, type TestServer } from "../support/server.ts";

let server: TestServer;
test.beforeAll(async () => {
  server = await startTestServer();
});
test.afterAll(async () => removeTestServer(server));

const payloads = [
  "<img src=x onerror=ran()>",
  "<svg onload=ran()></svg>",
  "<script>ran()</script>",
  '"><b class=ran>',
  "javascript:ran()",
] as const;

/** A copy in which every text that may hold anything holds a payload, and how many those are. */
function filled(copy: BoardCopy): { readonly copy: BoardCopy; readonly count: number } {
  let whole: BoardCopy = copy;
  let count = 0;
  const visit = (path: readonly string[], value: unknown) => {
    if (typeof value === "object" && value !== null) {
      for (const [name, inner] of Object.entries(value)) visit([...path, name], inner);
    }
    if (typeof value !== "string") return;
    const changed: unknown = replaced(whole, path, payloads[count % payloads.length]);
    const read = decodeCopy(changed);
    if (!read.ok) return;
    whole = read.value;
    count += 1;
  };
  visit([], copy);
  return { copy: whole, count };
}

function replaced(value: unknown, path: readonly string[], text: unknown): unknown {
  const [name, ...rest] = path;
  if (name === undefined) return text;
  if (Array.isArray(value)) {
    return value.map((one, i) => (String(i) === name ? replaced(one, rest, text) : one));
  }
  const inner: unknown = Reflect.get(Object(value), name);
  return { ...Object(value), [name]: replaced(inner, rest, text) };
}

test("a copy with script in every text runs none of it and breaks no policy", async ({
  browser,
}) => {
  const { copy, count } = filled(demoDraft());
  expect(count).toBeGreaterThan(5);
  const runs: string[] = [];
  const { lower, upper, boardAddress } = await openDuo(
    browser,
    server.address,
    copy,
    {},
    async (page) => {
      await page.exposeFunction("ran", () => runs.push("ran"));
      page.on("dialog", (dialog) => runs.push(dialog.message()));
    },
  );
  const { page } = lower;
  const path = apiPath.name(boardAddress.split("/").at(-1) as BoardId);
  await page.evaluate(
    async ([at, name]) => {
      const headers = { "content-type": "application/json" };
      await fetch(at, { method: "POST", headers, body: JSON.stringify({ name }) });
    },
    [path, payloads[0]] as const,
  );
  await expect(upper.row("lower")).toContainText(payloads[0]);
  await page.getByRole("button", { name: "Share", exact: true }).click();
  await expect(page.getByRole("dialog")).toContainText(payloads[0]);
  for (const player of [lower, upper]) {
    await expect(player.page.locator("img[src=x], b.ran, main script")).toHaveCount(0);
    expect(player.problems).toEqual([]);
  }
  expect(runs).toEqual([]);

  await test.step("the same as markup is noticed, and does not run either", async () => {
    await page.evaluate((markup) => {
      document.body.insertAdjacentHTML("beforeend", markup);
    }, payloads[0]);
    await expect.poll(() => lower.problems.join()).toContain("Content Security Policy");
    await expect(page.locator("img[src=x]")).toHaveCount(1);
    expect(runs).toEqual([]);
  });
});
