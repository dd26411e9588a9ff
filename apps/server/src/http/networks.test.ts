/** Whom a request counts for: nobody can choose it, and people behind one proxy don't share it. */
import { expect, test } from "vitest";
import { countedAddress, isNetwork, membership } from "./networks.ts";

const proxies = membership(["10.0.0.0/8", "192.0.2.7", "2001:db8:ffff::/48"]);

test.each<[what: string, remote: string | undefined, forwarded: string | undefined, who: string]>([
  ["a line of its own", "203.0.113.5", undefined, "203.0.113.5"],
  ["somebody who makes up whom they speak for", "203.0.113.5", "198.51.100.1", "203.0.113.5"],
  ["a trusted proxy", "10.1.2.3", "198.51.100.1", "198.51.100.1"],
  ["the same on a socket for both", "::ffff:10.1.2.3", "198.51.100.1", "198.51.100.1"],
  ["made up before a trusted proxy", "10.1.2.3", "1.1.1.1, 198.51.100.1", "198.51.100.1"],
  ["two proxies, both trusted", "10.1.2.3", "198.51.100.1, 192.0.2.7", "198.51.100.1"],
  ["two, the outer one not trusted", "10.1.2.3", "198.51.100.1, 192.0.2.8", "192.0.2.8"],
  ["a trusted proxy that says nothing", "10.1.2.3", undefined, "10.1.2.3"],
  ["a trusted proxy that says nonsense", "10.1.2.3", "unknown", "10.1.2.3"],
  ["a network of IPv6", "2001:db8:1:2:3:4:5:6", undefined, "2001:db8:1:2::/64"],
  ["another place in it", "2001:db8:1:2::9", undefined, "2001:db8:1:2::/64"],
  ["a proxy of IPv6", "2001:db8:ffff::1", "2001:0db8:0001:0003::1", "2001:db8:1:3::/64"],
  ["no address at all", undefined, "198.51.100.1", "unknown"],
])("%s", (_what, remote, forwarded, who) => {
  expect(countedAddress(remote, forwarded, proxies)).toBe(who);
});

test("networks are addresses, with bits or without", () => {
  for (const good of ["10.0.0.0/8", "::1", "2001:db8::/128"]) expect(isNetwork(good)).toBe(true);
  for (const bad of ["", "proxy", "10.0.0.0/33", "10.0.0.0/", "::1/129", "1.2.3.4/8/8", "*"]) {
    expect(isNetwork(bad), bad).toBe(false);
  }
});
