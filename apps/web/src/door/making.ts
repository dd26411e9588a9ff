/**
 * Makes a board on the server and opens it; one at a time, and a failure is words, never a lost
 * text.
 */
import type { LaneId } from "@halflap/board/board";
import type { BoardCopy } from "@halflap/board/copy";
import { useNavigate } from "@solidjs/router";
import { type Accessor, createSignal } from "solid-js";
import { type Hint, setHint } from "../app/hints.ts";
import { server } from "../session/server.ts";

export type Making = {
  readonly isMaking: Accessor<boolean>;
  readonly problem: Accessor<string | undefined>;
  /**
   * Resolves to whether the board was made. With a hint the upper lane is claimed for the maker.
   */
  make(name: string, copy: BoardCopy, hint?: Hint): Promise<boolean>;
};

const demoLane: LaneId = "upper";

/** Call inside a component below the router. */
export function createMaking(): Making {
  const navigate = useNavigate();
  const [isMaking, setMaking] = createSignal(false);
  const [problem, setProblem] = createSignal<string>();
  return {
    isMaking,
    problem,
    async make(name, copy, hint) {
      if (isMaking()) return false;
      setMaking(true);
      setProblem(undefined);
      const answer = await server.makeBoard(name, copy);
      if (answer.ok && hint !== undefined) {
        await server.claim(answer.value.board, demoLane);
        setHint(answer.value.board, hint);
      }
      setMaking(false);
      if (!answer.ok) {
        setProblem(answer.words);
        return false;
      }
      navigate(`/board/${answer.value.board}`);
      return true;
    },
  };
}
