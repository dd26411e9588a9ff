/** Members as both kinds of store hold them. */
import type { Role } from "@halflap/board/board";
import { memberId, memberName } from "@halflap/board/talk";
import type { Me } from "@halflap/wire/api";

export type MemberRow = { readonly id: string; readonly name: string; readonly role: Role };

/**
 * The member of a row. A name from before names were held to what `talk` holds is cut, here for
 * all: a page takes its own from `talk`, and is asked for the same one in its presence.
 */
export function meOf({ id, name, role }: MemberRow): Me {
  return { id: memberId(id), name: memberName(name), role };
}
