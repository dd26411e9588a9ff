/** Logs: one line an event in either form, whatever the values hold. */
import { expect, test } from "vitest";
import { type LogFormat, makeLog } from "./log.ts";

function written(format: LogFormat, act: (log: ReturnType<typeof makeLog>) => void): string {
  let text = "";
  const write = (line: string) => {
    text += line;
  };
  act(makeLog(write, () => new Date(0), format));
  return text;
}

test("JSON is one object a line", () => {
  const text = written("json", (log) => log.info("started", { address: "http://a", ms: 3 }));
  expect(text.endsWith("\n")).toBe(true);
  expect(JSON.parse(text)).toEqual({
    at: "1970-01-01T00:00:00.000Z",
    level: "info",
    event: "started",
    address: "http://a",
    ms: 3,
  });
});

test("text reads well, and a value can't begin a line of its own", () => {
  const text = written("text", (log) => {
    log.info("request", { route: "/api/boards/:board", ms: 3 });
    log.fault("failed", new Error("two\nlines level=info"));
  });
  const [first, second, ...more] = text.trimEnd().split("\n");
  expect(first).toBe("1970-01-01T00:00:00.000Z info request route=/api/boards/:board ms=3");
  expect(second).toContain('fault failed fault=Error message="two\\nlines level=info"');
  expect(more).toEqual([]);
});
