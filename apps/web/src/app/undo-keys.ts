/** The keys that undo and redo, on every platform. */

/**
 * Which step a key press asks for; undefined while somebody types in a field, whose own undo it is,
 * and while a dialog lies over the board.
 */
export function undoStep(event: KeyboardEvent): "undo" | "redo" | undefined {
  if (!(event.ctrlKey || event.metaKey) || event.altKey || isField(event.target)) return undefined;
  if (document.querySelector("dialog[open]") !== null) return undefined;
  const key = event.key.toLowerCase();
  if (key === "z") return event.shiftKey ? "redo" : "undo";
  return key === "y" && !event.shiftKey ? "redo" : undefined;
}

function isField(target: EventTarget | null): boolean {
  if (!(target instanceof HTMLElement)) return false;
  if (target instanceof HTMLInputElement) return !["radio", "checkbox"].includes(target.type);
  return target instanceof HTMLTextAreaElement || target.isContentEditable;
}
