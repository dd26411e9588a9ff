/**
 * A file that is saved is there for as long as a browser may ask where to put it.
 *
 * @vitest-environment jsdom
 */
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { saveFile } from "./save-file.ts";

const revoked: string[] = [];

beforeEach(() => {
  vi.useFakeTimers();
  URL.createObjectURL = () => "blob:made";
  URL.revokeObjectURL = (address) => revoked.push(address);
});
afterEach(() => void vi.useRealTimers());

test("its address holds for most of a minute, and not for ever", () => {
  const clicked: string[] = [];
  vi.spyOn(HTMLAnchorElement.prototype, "click").mockImplementation(function (
    this: HTMLAnchorElement,
  ) {
    clicked.push(`${this.href} ${this.download}`);
  });
  saveFile(new Blob(["x"]), "riff.wav");
  expect(clicked).toEqual(["blob:made riff.wav"]);
  vi.advanceTimersByTime(50_000);
  expect(revoked).toEqual([]);
  vi.advanceTimersByTime(20_000);
  expect(revoked).toEqual(["blob:made"]);
});
