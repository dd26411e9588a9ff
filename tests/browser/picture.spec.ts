/** The picture in README.md can be taken again. */
import { readFileSync } from "node:fs";
import { expect } from "@playwright/test";
import { test } from "../support/browser-test.ts";
import { takePicture } from "../support/picture.ts";

test("the picture shows the board at one and a half times its size", async () => {
  const file = test.info().outputPath("board.png");
  await takePicture(file);
  const picture = readFileSync(file);
  // PNG: the signature, then the header chunk with width and height (ISO/IEC 15948, 11.2.2).
  expect(picture.subarray(1, 4).toString()).toBe("PNG");
  expect([picture.readUInt32BE(16), picture.readUInt32BE(20)]).toEqual([1920, 1290]);
  // A page that stayed empty would pack into far less.
  expect(picture.length).toBeGreaterThan(100_000);
});
