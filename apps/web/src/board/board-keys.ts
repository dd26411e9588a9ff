/** Turns the keys pressed on the board into what they ask for. */
import type { Accessor } from "solid-js";
import type { Desk } from "./desk.ts";
import { commandOf, type KeyCommand } from "./keys.ts";
import { type BarLine, type Direction, firstPlace, walk } from "./place.ts";

/**
 * A listener for the board's element. Fields, and whatever handled the key already, are left
 * alone.
 */
export function createBoardKeys(
  desk: Desk,
  lines: Accessor<readonly BarLine[]>,
  showKeys: () => void,
): (event: KeyboardEvent) => void {
  const step = (direction: Direction) => {
    const from = desk.place() ?? firstPlace(lines(), desk.session.ownLane() ?? "upper");
    const to = from && walk(lines(), from, direction);
    if (to) desk.goTo(to);
  };
  return (event) => {
    if (event.defaultPrevented || !(event.target instanceof Element)) return;
    const command = commandOf(event);
    if (!command || !mayAct(command, event.target)) return;
    if (act(desk, command, step, showKeys)) event.preventDefault();
  };
}

/** Whether the command was taken. */
function act(
  desk: Desk,
  command: KeyCommand,
  step: (direction: Direction) => void,
  showKeys: () => void,
): boolean {
  switch (command.kind) {
    case "walk":
      step(command.direction);
      return true;
    case "open":
      return open(desk);
    case "close":
      return close(desk);
    case "finding":
      desk.step(command.step);
      return true;
    case "playing":
    case "singing":
      return openSide(desk, command.kind);
    case "fit":
      desk.openSidePanel({ kind: "fit" });
      return true;
    case "show-keys":
      showKeys();
      return true;
    case "listen":
      return false; // the whole window listens to it, see listen/listen-keys.ts
    case "type":
    case "clear":
    case "lay-out":
      return change(desk, command);
  }
}

function open(desk: Desk): boolean {
  const place = desk.place();
  if (!place) return false;
  if (place.kind === "slot") desk.openNeck(place);
  else if (desk.session.mayEditChart()) desk.write(place.bar);
  return true;
}

function close(desk: Desk): boolean {
  if (desk.preview()) desk.setPreview(undefined);
  else if (desk.isNeckOpen()) desk.closeNeck();
  else if (desk.sidePanel()) desk.closeSidePanel();
  else if (desk.picked()) desk.pick(undefined);
  else return false;
  return true;
}

function openSide(desk: Desk, kind: "playing" | "singing"): boolean {
  const place = desk.place();
  if (place === undefined) return false;
  const lane = place.kind === "slot" ? place.lane : (desk.session.ownLane() ?? "upper");
  desk.openSidePanel(
    kind === "playing" ? { kind, lane, bar: place.bar } : { kind, bar: place.bar },
  );
  return true;
}

/** What changes a lane happens on one's own only. */
function change(
  desk: Desk,
  command: Extract<KeyCommand, { kind: "type" | "clear" | "lay-out" }>,
): boolean {
  const place = desk.place();
  if (place?.kind !== "slot" || !desk.mayWrite(place.lane)) return false;
  const { board } = desk.session;
  const lane = desk.session.lane();
  // Only what has begun goes on with a dash.
  if (command.kind === "type" && command.text === "-" && desk.typed() === undefined) return false;
  if (command.kind === "type") desk.openNeck(place, command.text);
  else if (command.kind === "clear") lane?.clearGrip(place.slot);
  else lane?.layOut(place.bar, !board.lanes[place.lane].layOuts.has(place.bar));
  return true;
}

/** A field keeps all its keys, a button its Enter; only cells are walked and typed into. */
function mayAct(command: KeyCommand, target: Element): boolean {
  if (target.closest("input, textarea, select, dialog, [contenteditable]")) {
    return command.kind === "close" && !target.closest("dialog");
  }
  switch (command.kind) {
    case "finding":
    case "fit":
    case "show-keys":
    case "close":
      return true;
    default:
      return target.getAttribute("role") === "gridcell";
  }
}
