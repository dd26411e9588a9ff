/** How a server puts bytes on a WebSocket: RFC 6455, section 5.2. */

/** FIN, and that it is binary. */
const wholeBinary = 0x82;
/** Below it, a copy costs less than a write of its own. */
const copiedBytesMax = 16_384;

/**
 * One whole unmasked binary frame, in one piece or, when it is long, its head and then the bytes as
 * they are. Only for connections that agreed on no extension.
 */
export function socketFrame(payload: Uint8Array): readonly Uint8Array[] {
  const { length } = payload;
  const headLength = length < 126 ? 2 : length < 65_536 ? 4 : 10;
  const isCopied = length <= copiedBytesMax;
  const bytes = Buffer.allocUnsafe(headLength + (isCopied ? length : 0));
  bytes[0] = wholeBinary;
  if (headLength === 2) {
    bytes[1] = length;
  } else if (headLength === 4) {
    bytes[1] = 126;
    bytes.writeUInt16BE(length, 2);
  } else {
    bytes[1] = 127;
    bytes.writeUInt32BE(0, 2);
    bytes.writeUInt32BE(length, 6);
  }
  if (!isCopied) return [bytes, payload];
  bytes.set(payload, headLength);
  return [bytes];
}
