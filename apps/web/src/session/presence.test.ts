/** Who is on the board, from what their tabs say. */
import { memberId } from "@halflap/board/talk";
import type { Presence } from "@halflap/wire/presence";
import { createRoot } from "solid-js";
import { expect, test } from "vitest";
import { Awareness, applyAwarenessUpdate, encodeAwarenessUpdate } from "y-protocols/awareness";
import * as Y from "yjs";
import { createPresence } from "./presence.ts";

const [ada, ben] = [memberId("ada"), memberId("ben")];

test("a member with two tabs is one, and along while one of them is", () => {
  const heard = new Awareness(new Y.Doc());
  const open = (state: Presence) => {
    const tab = new Awareness(new Y.Doc());
    tab.setLocalState(state);
    applyAwarenessUpdate(heard, encodeAwarenessUpdate(tab, [tab.clientID]), undefined);
    tab.destroy();
  };
  open({ member: ben, name: "Ben", withinMs: 4 });
  open({ member: ben, name: "Ben" });
  open({ member: ada, name: "Ada", withinMs: 2 });
  const { presence, dispose } = createRoot((end) => ({
    presence: createPresence(
      () => heard,
      () => ({ id: ada }),
    ),
    dispose: end,
  }));
  expect(presence()).toEqual([{ member: ben, name: "Ben", withinMs: 4 }]);
  dispose();
  heard.destroy();
});
