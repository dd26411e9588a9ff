/**
 * The secret of a link: out of the address at once, and only a secret is one.
 *
 * @vitest-environment jsdom
 */
import { beforeEach, expect, test } from "vitest";
import { dropSecret, linkOf, takeSecret } from "./link-secret.ts";

const secret = "MsTCJ0bMkRLA4nPYOEB4ghkPoHRIyCOe8iFyp3MVR5U";

beforeEach(() => {
  sessionStorage.clear();
  history.replaceState(null, "", "/join");
});

test("a secret is taken out of the address, and a reload still finds it", () => {
  history.replaceState(null, "", `/join#${secret}`);
  expect(takeSecret()).toBe(secret);
  expect(location.href).not.toContain(secret);
  expect(takeSecret()).toBe(secret);
  dropSecret();
  expect(takeSecret()).toBeUndefined();
});

test("a link carries its secret behind the #, where no server sees it", () => {
  const link = new URL(linkOf("https://band.example", secret));
  expect([link.pathname, link.search, link.hash]).toEqual(["/join", "", `#${secret}`]);
});

test.each(["", "#", "#short", `#${"x".repeat(200)}`, "#<script>alert(1)</script>"])(
  "%j is no link's end",
  (hash) => {
    history.replaceState(null, "", `/join${hash}`);
    expect(takeSecret()).toBeUndefined();
  },
);
