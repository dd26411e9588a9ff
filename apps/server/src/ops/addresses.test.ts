/** Addresses are such as a browser can open. */
import type { NetworkInterfaceInfo } from "node:os";
import { expect, test } from "vitest";
import { addressesOf } from "./addresses.ts";

const entry = (address: string, internal: boolean): NetworkInterfaceInfo => ({
  address,
  netmask: "255.255.255.0",
  mac: "00:00:00:00:00:00",
  internal,
  cidr: null,
  ...(address.includes(":") ? { family: "IPv6", scopeid: 0 } : { family: "IPv4" }),
});
const interfaces = {
  lo: [entry("127.0.0.1", true), entry("::1", true)],
  wifi: [entry("192.168.1.20", false), entry("fe80::1", false)],
};

test.each(["0.0.0.0", "::"])(
  "listening on %s is this machine, and the network's number",
  (host) => {
    expect(addressesOf(host, 4321, interfaces)).toEqual({
      address: "http://127.0.0.1:4321",
      networkAddresses: ["http://192.168.1.20:4321"],
    });
  },
);

test.each([
  ["127.0.0.1", "http://127.0.0.1:80"],
  ["::1", "http://[::1]:80"],
  ["192.168.1.20", "http://192.168.1.20:80"],
])("listening on %s alone is %s alone", (host, address) => {
  expect(addressesOf(host, 80, interfaces)).toEqual({ address, networkAddresses: [] });
});
