/** Words of the share dialog: links, members and lanes. */
import type { LinkRole } from "@halflap/wire/api";

export const linkRoleWords: Readonly<
  Record<LinkRole, { readonly name: string; readonly may: string }>
> = {
  player: { name: "Player link", may: "may claim a free lane and change the chart" },
  listener: { name: "Listener link", may: "sees everything, changes nothing" },
  self: { name: "My other device", may: "you again, on a phone or another computer" },
};

/** Words of the dialog itself. */
export const shareWords = {
  invite: "Invite",
  make: "Make a link",
  linkReady: "Shown this once. Send it to them:",
  link: "Link",
  copyLink: "Copy the link",
  links: "Links out there",
  noLinks: "No link is out there.",
  until: (date: string) => `until ${date}`,
  usesLeft: (uses: number) => (uses === 1 ? "1 use left" : `${uses} uses left`),
  usedUp: "used up",
  expired: "expired",
  revoked: "revoked",
  revoke: "Revoke",
  members: "Members",
  you: "you",
  rename: "Change my name",
  name: "Your name",
  save: "Save",
  remove: "Remove",
  removeSure: (name: string) => `Really remove ${name}?`,
  makeLeader: "Make leader",
  makeLeaderSure: (name: string) => `Really hand the board to ${name}?`,
  lanes: "Lanes",
  free: "free",
  claim: "Claim",
  release: "Release",
  releaseHint: "What is in the lane stays there.",
  handOver: "Hand over to…",
  nobody: "nobody",
  offline: "Links, members and lanes need the server. They come back with the network.",
} as const;
