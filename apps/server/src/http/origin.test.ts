/** W1: which pages may act on a server with a list of origins, and on one without. */
import { expect, test } from "vitest";
import { listedOrigins, ownOrigins } from "./origin.ts";

test.each([
  ["http://127.0.0.1:4321", "127.0.0.1:4321"],
  ["http://localhost:4321", "localhost:4321"],
  ["http://192.168.1.20:4321", "192.168.1.20:4321"],
  ["http://192.168.1.20", "192.168.1.20"],
  ["http://[fd00::2]:4321", "[fd00::2]:4321"],
])("without a list the page %s acts on the server at %s", (origin, host) => {
  expect(ownOrigins.has(origin, host)).toBe(true);
});

test.each([
  ["a foreign name that leads here", "http://evil.example:4321", "evil.example:4321"],
  ["a name that looks like a number", "http://10.0.0.1.evil.example", "10.0.0.1.evil.example"],
  ["a name under localhost", "http://evil.localhost:4321", "evil.localhost:4321"],
  ["another machine's page", "http://192.168.1.66:4321", "192.168.1.20:4321"],
  ["another port's page", "http://192.168.1.20:8080", "192.168.1.20:4321"],
  ["localhost's page on a number", "http://localhost:4321", "127.0.0.1:4321"],
  ["a page over TLS", "https://192.168.1.20:4321", "192.168.1.20:4321"],
  ["no page", undefined, "192.168.1.20:4321"],
  ["a page from a file", "null", "192.168.1.20:4321"],
  ["a request without a host", "http://192.168.1.20:4321", undefined],
  ["a host that is none", "http://192.168.1.20:4321", "192.168.1.20:43 21"],
])("without a list %s does not", (_what, origin, host) => {
  expect(ownOrigins.has(origin, host)).toBe(false);
});

test("with a list only what stands on it acts, whatever the host", () => {
  const origins = listedOrigins(["https://board.example"]);
  expect(origins.has("https://board.example", "127.0.0.1:4321")).toBe(true);
  expect(origins.has("http://127.0.0.1:4321", "127.0.0.1:4321")).toBe(false);
  expect(origins.has(undefined, "board.example")).toBe(false);
});
