/** What may be typed after `halflap`, and what is answered to the rest. */
import { describe, expect, test } from "vitest";
import { readCommandLine } from "./command-line.ts";

const choice =
  "check, fit, copy, backup, restore, verify, raise-epochs, export-member or delete-member";

const everydayFit = {
  ...{ file: "a.json", json: false, lanes: ["upper", "lower"], leaning: "plain", answers: 3 },
  ...{ bars: undefined, take: 1, whole: false, why: undefined, copy: undefined },
};

describe("the command line", () => {
  test.each([
    [["check", "a.json"], { kind: "check", file: "a.json", json: false, ways: false }],
    [["--json", "check", "-"], { kind: "check", file: "-", json: true, ways: false }],
    [["check", "--ways", "-"], { kind: "check", file: "-", json: false, ways: true }],
    [["fit", "a.json"], { kind: "fit", ...everydayFit }],
    [["copy", "--store", "b"], { kind: "copy", store: "b", board: undefined }],
    [["copy", "x1", "--store=b"], { kind: "copy", store: "b", board: "x1" }],
    [["backup", "f", "--store", "b"], { kind: "backup", file: "f", store: "b", json: false }],
    [["restore", "f", "--store=b"], { kind: "restore", file: "f", store: "b", json: false }],
    [["verify", "--json", "--store", "b"], { kind: "verify", store: "b", json: true }],
    [["verify"], { kind: "verify", store: undefined, json: false }],
    [["raise-epochs", "--store", "b"], { kind: "raise-epochs", store: "b", json: false }],
    [
      ["export-member", "m", "--store", "b", "--takes", "t"],
      { kind: "export-member", member: "m", store: "b", takes: "t", json: false },
    ],
    [
      ["delete-member", "m", "--store", "b", "--with-boards"],
      { kind: "delete-member", member: "m", also: [], store: "b", withBoards: true, json: false },
    ],
    [["check", "--help"], { kind: "help" }],
    [["-h"], { kind: "help" }],
    [["--version"], { kind: "version" }],
  ])("reads %j", (words, command) => {
    expect(readCommandLine(words)).toEqual({ ok: true, value: command });
  });

  test("takes an id that begins with a dash for an id", () => {
    const [member, also] = ["-rXb0_9Zq-Lk3TyA", "--b0_9ZqrXLk3TyA"];
    const board = "-0_9ZqrXLk3TyAb0_9ZqrX";
    expect(readCommandLine(["delete-member", member, "--also", also, "--json"])).toMatchObject({
      ok: true,
      value: { kind: "delete-member", member, also: [also], json: true },
    });
    expect(readCommandLine(["copy", board, "--store", "b"])).toMatchObject({
      ok: true,
      value: { kind: "copy", store: "b", board },
    });
    expect(readCommandLine(["export-member", "--", member])).toMatchObject({
      ok: true,
      value: { kind: "export-member", member },
    });
  });

  test.each<readonly [readonly string[], string]>([
    [[], `What shall it be: ${choice}?`],
    [["chekc"], `There is no command "chekc": it is ${choice}.`],
    [["check"], "check needs a file, or - for the standard input."],
    [["check", "a", "b"], '"b" is one too many.'],
    [["copy", "x1"], "copy needs --store and a server's SQLite file."],
    [["copy", "--json", "--store", "b"], "copy takes no --json."],
    [["check", "--store", "a", "b"], "check takes no --store."],
    [["backup", "f"], "backup needs --store and a server's folder."],
    [["restore", "--store", "b"], "restore needs the backup's file."],
    [["verify", "b"], 'verify takes the store of --store, and no "b".'],
    [["verify", "--with-boards", "--store", "b"], "verify takes no --with-boards."],
    [["delete-member", "--store", "b"], "delete-member needs a member's id."],
    [["fit"], "fit needs a file, or - for the standard input."],
    [["fit", "--ways", "a"], "fit takes no --ways."],
    [["check", "--lane", "upper", "a"], "check takes no --lane."],
    [["copy", "--ways", "--store", "b"], "copy takes no --ways."],
    [["check", "--loud", "-"], "Unknown option '--loud'."],
  ])("refuses %j with a sentence", (words, sentence) => {
    expect(readCommandLine(words)).toEqual({ ok: false, error: sentence });
  });
});
