/** The links of a board, as the server lists them, and what can be done with them. */
import type { BoardId, LinkCard, LinkId, LinkRole } from "@halflap/wire/api";
import { linkDaysUsual, linkUsesUsual, selfLinkDays, selfLinkUses } from "@halflap/wire/limits";
import { createResource, createSignal } from "solid-js";
import { linkOf } from "../door/link-secret.ts";
import { server } from "../session/server.ts";

export type Links = {
  readonly cards: () => readonly LinkCard[];
  readonly problem: () => string | undefined;
  /** The link that was just made for a role; it is shown this once. */
  readonly fresh: () => { readonly role: LinkRole; readonly address: string } | undefined;
  make(role: LinkRole): Promise<void>;
  revoke(link: LinkId): Promise<void>;
};

/** How long a link lasts and how often it opens, by role. */
const terms: Readonly<Record<LinkRole, { readonly days: number; readonly uses: number }>> = {
  player: { days: linkDaysUsual, uses: linkUsesUsual },
  listener: { days: linkDaysUsual, uses: linkUsesUsual },
  self: { days: selfLinkDays, uses: selfLinkUses },
};

/** Call inside a component; lists nothing while `mayList` says no. */
export function createLinks(board: BoardId, mayList: () => boolean): Links {
  const [problem, setProblem] = createSignal<string>();
  const [fresh, setFresh] = createSignal<{ role: LinkRole; address: string }>();
  const list = async (): Promise<readonly LinkCard[]> => {
    const answer = await server.links(board);
    setProblem(answer.ok ? undefined : answer.words);
    return answer.ok ? answer.value.links : [];
  };
  const [cards, { refetch }] = createResource(mayList, list, { initialValue: [] });
  return {
    cards: () => cards.latest,
    problem,
    fresh,
    async make(role) {
      const answer = await server.makeLink(board, { role, ...terms[role] });
      if (!answer.ok) {
        setProblem(answer.words);
        return;
      }
      setProblem(undefined);
      setFresh({ role, address: linkOf(location.origin, answer.value.secret) });
      await refetch();
    },
    async revoke(link) {
      const answer = await server.revokeLink(board, link);
      if (answer.ok) await refetch();
      else setProblem(answer.words);
    },
  };
}
