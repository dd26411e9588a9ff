/** Routes for links: made, listed, revoked, and redeemed. */
import type {
  BoardId,
  DoneAnswer,
  JoinAnswer,
  LinkCard,
  LinkRole,
  LinksAnswer,
  MakeLinkAnswer,
  RefusalCode,
} from "@halflap/wire/api";
import {
  bodyBytesMax,
  linkDaysMax,
  linkUsesMax,
  selfLinkDays,
  selfLinkUses,
} from "@halflap/wire/limits";
import { type Context, Hono } from "hono";
import type { Redeemed, StoredLink } from "../store/people-port.ts";
import {
  decodeLinkId,
  decodeSecret,
  hashOf,
  makeLinkId,
  makeMemberId,
  makeSecret,
} from "../store/secret.ts";
import { boardNotFound, Refused } from "./answers.ts";
import { fieldsOf, oneOf, wholeIn } from "./body.ts";
import { limitedTo } from "./body-limit.ts";
import { nameIn } from "./names.ts";
import type { RoutePorts } from "./ports.ts";
import { limited } from "./rate.ts";

const dayMs = 24 * 3600 * 1000;
const linkRoles: readonly LinkRole[] = ["player", "listener", "self"];
/** Secrets can't be guessed at any rate; this spares the store. */
const joiningRate = { perMinute: 120, burst: 120 };

/** /boards/:board/links and /join */
export function linkRoutes(ports: RoutePorts): Hono {
  const { people, sessions } = ports;
  const routes = new Hono();

  routes.post("/boards/:board/links", limitedTo(bodyBytesMax), (c) => makeLink(ports, c));

  routes.get("/boards/:board/links", async (c) => {
    const { board, me } = await sessions.memberWho("see-links", c);
    const links = await people.links(board);
    const shown = links.filter(({ member }) => member === undefined || member === me.id);
    return c.json<LinksAnswer>({ links: shown.map(cardOf) });
  });

  routes.delete("/boards/:board/links/:link", async (c) => {
    const { board } = await sessions.memberWho("revoke-link", c);
    const link = decodeLinkId(c.req.param("link"));
    const revoked = link !== undefined && (await people.revokeLink(board, link));
    if (!revoked) throw new Refused("link-unknown", "There is no such link on this board.");
    return c.json<DoneAnswer>({ done: true });
  });

  routes.post("/join", limited(joiningRate, ports), limitedTo(bodyBytesMax), async (c) => {
    const fields = await fieldsOf(c, ["secret", "name"]);
    const secret = typeof fields.secret === "string" ? decodeSecret(fields.secret) : undefined;
    if (secret === undefined) throw refusalOf("unknown");
    const name = fields.name === undefined ? undefined : nameIn(fields);
    const session = sessions.ensure(c);
    const newcomer = makeMemberId();
    const link = hashOf(secret);
    const joined = await people.redeem({ link, session, at: ports.now(), name, newcomer });
    if (joined.kind === "refused") throw refusalOf(joined.because);
    await ports.desk.announce(joined.board);
    return c.json<JoinAnswer>({ board: joined.board, me: joined.me });
  });

  return routes;
}

async function makeLink({ people, sessions, now }: RoutePorts, c: Context): Promise<Response> {
  const fields = await fieldsOf(c, ["role", "days", "uses"]);
  const role = oneOf(fields, "role", linkRoles);
  const isSelf = role === "self";
  const { board, me } = await sessions.memberWho(isSelf ? "add-own-device" : "invite", c);
  const days = wholeIn(fields, "days", 1, linkDaysMax);
  const uses = wholeIn(fields, "uses", 1, linkUsesMax);
  const secret = makeSecret();
  const madeAt = now();
  const link: StoredLink = {
    id: makeLinkId(),
    role,
    member: isSelf ? me.id : undefined,
    madeAt,
    expiresAt: madeAt + (isSelf ? selfLinkDays : days) * dayMs,
    usesLeft: isSelf ? selfLinkUses : uses,
    revoked: false,
  };
  await addOrRefuse(people, board, hashOf(secret), link);
  return c.json<MakeLinkAnswer>({ link: cardOf(link), secret }, 201);
}

async function addOrRefuse(
  people: RoutePorts["people"],
  board: BoardId,
  hash: ReturnType<typeof hashOf>,
  link: StoredLink,
): Promise<void> {
  const added = await people.addLink(board, hash, link);
  if (added === "added") return;
  if (added === "gone") throw boardNotFound();
  throw new Refused("too-many", "This board has too many open links; revoke some first.");
}

function cardOf({ id, role, madeAt, expiresAt, usesLeft, revoked }: StoredLink): LinkCard {
  const iso = (at: number) => new Date(at).toISOString();
  return { id, role, madeAt: iso(madeAt), expiresAt: iso(expiresAt), usesLeft, revoked };
}

function refusalOf(because: Extract<Redeemed, { kind: "refused" }>["because"]): Refused {
  const [code, words] = refusals[because];
  return new Refused(code, words);
}

const refusals = {
  unknown: ["link-unknown", "This link is not known here. Was it copied whole? Ask for a new one."],
  expired: ["link-expired", "This link has run out. Ask for a new one."],
  "used-up": ["link-used-up", "This link has been used as often as it may. Ask for a new one."],
  revoked: ["link-revoked", "This link was taken back. Ask for a new one."],
  "no-name": ["bad-body", "Say your name to join."],
  "board-full": ["not-allowed", "This board has as many members as it can hold."],
  "somebody-else": [
    "not-allowed",
    "This link is for its maker's other device; in this browser you are on the board already.",
  ],
} as const satisfies Record<string, readonly [RefusalCode, string]>;
