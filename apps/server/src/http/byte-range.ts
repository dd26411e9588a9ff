/** The part of a file that a request asks for (RFC 9110, section 14). */
import type { ByteRange } from "../store/takes-port.ts";

/**
 * One range of bytes; undefined = the whole: without a header, for other units and for several
 * ranges, which a server may answer so. "none" when it lies outside of the file.
 */
export function byteRange(
  header: string | undefined,
  size: number,
): ByteRange | "none" | undefined {
  const [, from = "", to = ""] = /^bytes=(\d{0,15})-(\d{0,15})$/.exec(header ?? "") ?? [];
  if (from === "" && to === "") return undefined;
  if (from === "") {
    const length = Math.min(Number(to), size);
    return length === 0 ? "none" : { start: size - length, length };
  }
  const start = Number(from);
  if (to !== "" && Number(to) < start) return undefined;
  if (start >= size) return "none";
  const end = to === "" ? size : Math.min(Number(to) + 1, size);
  return { start, length: end - start };
}
