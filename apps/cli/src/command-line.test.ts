/** What may be typed after `halflap`, and what is answered to the rest. */
import { describe, expect, test } from "vitest";
import { readCommandLine } from "./command-line.ts";

describe("the command line", () => {
  test.each([
    [["check", "a.json"], { kind: "check", file: "a.json", json: false, ways: false }],
    [["--json", "check", "-"], { kind: "check", file: "-", json: true, ways: false }],
    [["check", "--ways", "-"], { kind: "check", file: "-", json: false, ways: true }],
    [["copy", "--store", "b"], { kind: "copy", store: "b", board: undefined }],
    [["copy", "x1", "--store=b"], { kind: "copy", store: "b", board: "x1" }],
    [["check", "--help"], { kind: "help" }],
    [["-h"], { kind: "help" }],
    [["--version"], { kind: "version" }],
  ])("reads %j", (words, command) => {
    expect(readCommandLine(words)).toEqual({ ok: true, value: command });
  });

  test.each<readonly [readonly string[], string]>([
    [[], "What shall it be: check or copy?"],
    [["chekc"], 'There is no command "chekc": it is check or copy.'],
    [["check"], "check needs a file, or - for the standard input."],
    [["check", "a", "b"], '"b" is one too many.'],
    [["check", "--store", "a", "b"], "check reads a file and takes no --store."],
    [["copy", "x1"], "copy needs --store and a server's SQLite file."],
    [["copy", "--json", "--store", "b"], "copy always writes JSON and takes no --json."],
    [["copy", "--ways", "--store", "b"], "copy flags nothing and takes no --ways."],
    [["check", "--loud", "-"], "Unknown option '--loud'."],
  ])("refuses %j with a sentence", (words, sentence) => {
    expect(readCommandLine(words)).toEqual({ ok: false, error: sentence });
  });
});
