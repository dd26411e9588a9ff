/** What whoever runs a server does with its store: backup, restore, verify, and a member's own. */
import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { type BackedUp, backUp } from "@halflap/server/backup";
import { BadVariable, readConfig } from "@halflap/server/config";
import { type Forgotten, forgetMember } from "@halflap/server/forget-member";
import { machineWords } from "@halflap/server/machine-words";
import { type MemberReport, memberReport, takeSound } from "@halflap/server/member-report";
import { CantDo } from "@halflap/server/place";
import { raiseEpochs } from "@halflap/server/raise-epochs";
import type { StorePlace } from "@halflap/server/records";
import { type Restored, restore } from "@halflap/server/restore";
import { type Verified, verify } from "@halflap/server/verify";
import type { StoreCommand } from "./command-line.ts";
import { done, type Outcome, refused } from "./outcome.ts";

type Variables = Parameters<typeof readConfig>[0];

/** Does it; `now` is in milliseconds since 1970, `variables` are those that a server reads too. */
export async function runStoreCommand(
  command: StoreCommand,
  now: number,
  variables: Variables,
): Promise<Outcome> {
  try {
    return await run(command, now, variables);
  } catch (fault) {
    if (fault instanceof CantDo || fault instanceof BadVariable) return refused(fault.message);
    const words = machineWords(fault);
    if (words !== undefined) return refused(words);
    throw fault;
  }
}

async function run(command: StoreCommand, now: number, variables: Variables): Promise<Outcome> {
  const { json } = command;
  switch (command.kind) {
    case "backup": {
      const { store, file } = command;
      return told(json, backUp(store, file), (did) => backupText(did, file));
    }
    case "restore":
      return told(json, await restore(command.file, command.store, now), restoreText);
    case "verify": {
      const read = await verify(placeOf(command, variables));
      return told(json, read, verifyText, read.faults.length === 0 ? 0 : 1);
    }
    case "raise-epochs": {
      const boards = await raiseEpochs(placeOf(command, variables), now);
      return told(json, { boards }, raisedText);
    }
    case "export-member": {
      const place = placeOf(command, variables);
      const report = await memberReport(place, command.member);
      const { takes } = command;
      const gone = takes === undefined ? [] : await writeTakes(place, report, takes);
      return { ...told(json, report, reportText), err: goneText(gone) };
    }
    case "delete-member": {
      const place = placeOf(command, variables);
      return told(json, await forgetMember(place, command, now), forgottenText);
    }
  }
}

/** The file of --store, else the database that a server would take. */
function placeOf(
  { kind, store }: { readonly kind: string; readonly store: string | undefined },
  variables: Variables,
): StorePlace {
  if (store !== undefined) return { kind: "file", path: store };
  const { database } = readConfig(variables);
  if (database !== undefined) return { kind: "database", address: database };
  const either = "--store and a server's folder, or HALFLAP_DATABASE_URL for a database";
  throw new CantDo(`${kind} needs ${either}.`);
}

function told<T>(json: boolean, value: T, text: (value: T) => string, exit: 0 | 1 = 0): Outcome {
  return done(json ? `${JSON.stringify(value, undefined, 2)}\n` : text(value), exit);
}

function backupText({ boards, bytes }: BackedUp, file: string): string {
  return `${counted(boards, "board")} in ${file}, ${bytes} bytes.\n`;
}

function restoreText({ boards, before }: Restored): string {
  return [
    `${counted(boards, "board")} restored, each under a new epoch.`,
    "Pages that knew more keep their own copy apart.",
    "Members, roles and links are as they were then: look for who was removed since.",
    ...(before === undefined ? [] : [`What stood there before is ${before}.`]),
  ]
    .map((line) => `${line}\n`)
    .join("");
}

function raisedText({ boards }: { readonly boards: number }): string {
  const end = "under a new epoch: pages that knew more keep their own copy";
  return `${counted(boards, "board")} ${end}.\n`;
}

function verifyText({ boards, documents, rows, takes, faults }: Verified): string {
  const lines = faults.map(({ board, part, why }) => {
    return `${board === undefined ? "" : `${board} `}${part}: ${why}\n`;
  });
  const read = [
    counted(boards, "board"),
    counted(documents, "document"),
    counted(rows, "row"),
    counted(takes, "take"),
  ].join(", ");
  const end = faults.length === 0 ? "all can be read" : `${counted(faults.length, "fault")}`;
  return `${lines.join("")}${read}: ${end}.\n`;
}

function reportText({ memberships }: MemberReport): string {
  return memberships
    .map(({ board, member, name, role, title, lanes, sessions, links, takes, writings }) =>
      [
        `${board}  ${title}`,
        `  ${member}  ${name}, ${role}`,
        `  lanes: ${lanes.join(", ") || "none"}`,
        `  browsers signed in: ${sessions}, links to own devices: ${links.length}`,
        ...links.map((link) => `    ${link.id}  made ${link.madeAt}, until ${link.expiresAt}`),
        `  takes: ${takes.length}`,
        ...takes.map(({ id, name, at, bytes }) => `    ${id}  ${at}  ${name}, ${bytes} bytes`),
        ...Object.entries(writings).map(([document, n]) => {
          return `  wrote in ${document} from ${counted(n, "page load")}`;
        }),
      ]
        .map((line) => `${line}\n`)
        .join(""),
    )
    .join("\n");
}

function forgottenText({ boards }: Forgotten): string {
  const lines = boards.map(({ board, leader, isDeleted, takes }) => {
    if (isDeleted) return `${board}: deleted with its leader.\n`;
    const lead = leader === undefined ? "" : ` ${leader} leads it now.`;
    const gone = "name, sessions, links and lanes are gone";
    return `${board}: ${gone}.${lead} Takes that stay: ${takes}.\n`;
  });
  return [
    ...lines,
    "What was written and recorded stays with the band, under ids that name nobody.\n",
    "Backups made before, and browsers that have the board, still know the name.\n",
  ].join("");
}

/** Answers those that were removed since the report. */
async function writeTakes(
  place: StorePlace,
  { memberships }: MemberReport,
  folder: string,
): Promise<readonly string[]> {
  const gone: string[] = [];
  mkdirSync(folder, { recursive: true });
  for (const { id, type } of memberships.flatMap(({ takes }) => takes)) {
    const path = join(folder, `${id}.${type.replace("audio/", "")}`);
    const sound = await takeSound(place, id);
    if (sound === undefined) gone.push(id);
    else writeFileSync(path, sound, { flag: "wx" });
  }
  return gone;
}

function goneText(takes: readonly string[]): string {
  return takes
    .map((id) => `The take ${id} was removed meanwhile; its sound is left out.\n`)
    .join("");
}

function counted(n: number, what: string): string {
  return `${n} ${what}${n === 1 ? "" : "s"}`;
}
