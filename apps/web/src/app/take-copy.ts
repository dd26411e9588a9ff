/** Takes things out of the page: a board's copy as a file, a text to the clipboard. */
import type { BoardCopy } from "@halflap/board/copy";

/** Saves a board's copy as a file named after its title. */
export function takeCopy(copy: BoardCopy): void {
  const address = URL.createObjectURL(
    new Blob([JSON.stringify(copy, undefined, 1)], { type: "application/json" }),
  );
  const link = document.createElement("a");
  link.href = address;
  link.download = fileName(copy.title);
  link.click();
  setTimeout(() => URL.revokeObjectURL(address)); // the browser has taken the file by then
}

/** "Paper Ferry Home" -> "paper-ferry-home.halflap.json"; letters, digits and dashes only. */
export function fileName(title: string): string {
  const words = title.toLowerCase().match(/[\p{L}\p{N}]+/gu) ?? [];
  return `${words.join("-").slice(0, 60) || "board"}.halflap.json`;
}

/** Whether a text could be put on the clipboard. */
export async function copyText(text: string): Promise<boolean> {
  try {
    await navigator.clipboard.writeText(text);
    return true;
  } catch {
    return false; // no permission, or a page without TLS
  }
}
