/** From degrees back to the canonical spelling of a chord's quality: one spelling for one chord. */
import { alteredDegrees } from "./chord-degrees.ts";

const naturalColours = ["9", "11", "13"] as const;

/**
 * What stands behind the root, in ASCII: "m7b5", "7(b9,#11)", "add9", "7sus4". Reading it again
 * gives the same degrees. The degrees are those of one chord symbol, in thirds from the root.
 */
export function suffixOf(degrees: readonly string[]): string {
  if (degrees.join() === alteredDegrees.join()) return "7alt";
  const left = new Set(degrees.filter((degree) => degree !== "1"));
  const suspension = ["2", "4"].filter((degree) => left.delete(degree));
  const head = headOf(left, suspension.length > 0);
  const added = /\d/.test(head) ? [] : naturalColours.filter((degree) => left.delete(degree));
  const inBrackets = [...left, ...missing(degrees, suspension.length > 0, head)];
  return [
    head,
    ...suspension.map((degree) => `sus${degree}`),
    ...added.map((degree) => `add${degree}`),
    inBrackets.length > 0 ? `(${inBrackets.join()})` : "",
  ].join("");
}

/** The triad and the stack of thirds; takes out of `left` what the head itself says. */
function headOf(left: Set<string>, isSuspended: boolean): string {
  const isMinor = left.delete("b3");
  const isMajor = left.delete("3");
  const seventh = ["bb7", "b7", "7", "6"].find((degree) => left.delete(degree));
  if (seventh === "bb7") {
    left.delete("b5");
    return "dim7";
  }
  if (isMinor && seventh === "b7" && left.delete("b5")) return `m${stackNumber(left, true)}b5`;
  const isSplit = left.has("b5") && left.has("#5");
  if (isMinor && seventh !== "6" && !isSplit && left.delete("b5")) {
    return seventh === "7" ? `dim(maj${stackNumber(left, true)})` : "dim";
  }
  if (isMajor && seventh === undefined && !isSplit && left.delete("#5")) return "aug";
  const isPlain = left.delete("5");
  const isPower = isPlain && !isMinor && !isMajor && !isSuspended && seventh === undefined;
  return isPower ? "5" : (isMinor ? "m" : "") + seventhOf(left, seventh, isMinor);
}

function seventhOf(left: Set<string>, seventh: string | undefined, isMinor: boolean): string {
  switch (seventh) {
    case "6":
      return left.delete("9") ? "69" : "6";
    case "7": {
      const number = stackNumber(left, isMinor);
      return isMinor ? `(maj${number})` : `maj${number}`;
    }
    case "b7":
      return String(stackNumber(left, isMinor));
    default:
      return "";
  }
}

/**
 * The highest third reached without a gap; an altered ninth or eleventh bridges one, and stays in
 * `left`.
 */
function stackNumber(left: Set<string>, isMinor: boolean): 7 | 9 | 11 | 13 {
  const hasNinth = left.has("9") || left.has("b9") || left.has("#9");
  const hasEleventh = left.has("11") || left.has("#11");
  if (hasNinth && left.has("13") && (hasEleventh || !isMinor)) {
    left.delete("9");
    left.delete("13");
    if (isMinor) left.delete("11");
    return 13;
  }
  if (hasNinth && left.delete("11")) {
    left.delete("9");
    return 11;
  }
  return left.delete("9") ? 9 : 7;
}

/** The third or fifth that the head promises and the chord lacks. */
function missing(degrees: readonly string[], isSuspended: boolean, head: string): string[] {
  const hasThird = degrees.includes("3") || degrees.includes("b3") || isSuspended;
  const hasFifth = degrees.some((degree) => degree.endsWith("5"));
  return [hasThird || head === "5" ? [] : "no3", hasFifth ? [] : "no5"].flat();
}
