/** The addresses at which the server can be reached, as people type them. */
import type { networkInterfaces } from "node:os";

export type Addresses = {
  /** For a browser on this machine. */
  readonly address: string;
  /** For other machines in the same network. */
  readonly networkAddresses: readonly string[];
};

/**
 * The addresses of a server that listens on a host. "Every address" (0.0.0.0 or ::) is none that a
 * browser can open, so it stands for localhost and for the IPv4 addresses of the machine.
 */
export function addressesOf(
  host: string,
  port: number,
  interfaces: ReturnType<typeof networkInterfaces>,
): Addresses {
  const at = (name: string) => `http://${name.includes(":") ? `[${name}]` : name}:${port}`;
  if (host !== "0.0.0.0" && host !== "::") return { address: at(host), networkAddresses: [] };
  const outside = Object.values(interfaces)
    .flatMap((each) => each ?? [])
    .filter(({ internal, family }) => !internal && family === "IPv4");
  return { address: at("127.0.0.1"), networkAddresses: outside.map(({ address }) => at(address)) };
}
