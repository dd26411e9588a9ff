/** Lets the browser save what was made here. */

/** Some browsers begin to read the file only after the person has said where it goes. */
const keptMs = 60_000;

/** Saves a file under a name; its bytes are given up once the browser has surely taken them. */
export function saveFile(file: Blob, name: string): void {
  const address = URL.createObjectURL(file);
  const link = document.createElement("a");
  link.href = address;
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(address), keptMs);
}
