/**
 * Addresses and networks: whom a request counts for is the other end of its line, or, behind a
 * proxy that is trusted, whom that proxy says it speaks for.
 */
import { BlockList, isIP, isIPv6 } from "node:net";

/** Each an address or `address/bits`. */
export type Networks = readonly string[];

/** Whether a text is an address, or a network as `address/bits`. */
export function isNetwork(text: string): boolean {
  const [address = "", bits, ...more] = text.split("/");
  const version = isIP(address);
  if (version === 0 || more.length > 0) return false;
  return (
    bits === undefined || (/^\d{1,3}$/.test(bits) && Number(bits) <= (version === 4 ? 32 : 128))
  );
}

/**
 * The nearest address that is no trusted proxy: each proxy adds at the end whom it heard, and what
 * stands before the first that is not trusted may be made up. Of IPv6 only the network counts,
 * since one person has 2^64 addresses in it.
 */
export function countedAddress(
  remote: string | undefined,
  forwarded: string | undefined,
  isTrusted: (address: string) => boolean,
): string {
  let address = plain(remote ?? "");
  const chain = (forwarded ?? "").split(",").map((part) => plain(part.trim()));
  while (isTrusted(address)) {
    const before = chain.pop();
    if (before === undefined || isIP(before) === 0) break;
    address = before;
  }
  return isIPv6(address) ? networkOf(address) : address || "unknown";
}

/** Whether an address is one of these or lies in one of these networks. */
export function membership(networks: Networks): (address: string) => boolean {
  const list = new BlockList();
  for (const network of networks) {
    const [address = "", bits] = network.split("/");
    const version = isIPv6(address) ? "ipv6" : "ipv4";
    if (bits === undefined) list.addAddress(address, version);
    else list.addSubnet(address, Number(bits), version);
  }
  return (address) => isIP(address) !== 0 && list.check(address, isIPv6(address) ? "ipv6" : "ipv4");
}

/** IPv4 as it is, also where a socket for both shows it as IPv6. */
function plain(address: string): string {
  const v4 = /^::ffff:(\d+\.\d+\.\d+\.\d+)$/i.exec(address)?.[1];
  return v4 ?? address;
}

/** The first 64 bits, written one way. */
function networkOf(address: string): string {
  const [head = "", tail] = (address.split("%")[0] ?? "").split("::");
  const groups = head === "" ? [] : head.split(":");
  const last = tail === undefined || tail === "" ? [] : tail.split(":");
  const zeros = tail === undefined ? 0 : Math.max(0, 8 - groups.length - last.length);
  const all = [...groups, ...Array.from({ length: zeros }, () => "0"), ...last];
  const first = all.slice(0, 4).map((group) => Number.parseInt(group, 16).toString(16));
  return `${first.join(":")}::/64`;
}
