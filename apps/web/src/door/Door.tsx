/** The door: try it on the demo tune, go on with a board, or start a new one. */
import { demoDraft, demoSolution } from "@halflap/board/demo";
import { createSignal, type JSX } from "solid-js";
import type { Hint } from "../app/hints.ts";
import { MoreIcon } from "../app/icons.tsx";
import { Mark } from "../app/Mark.tsx";
import { Menu } from "../app/Menu.tsx";
import { ThemeChoice } from "../app/ThemeChoice.tsx";
import { Title } from "../app/Title.tsx";
import { remember, remembered, textValue } from "../session/remembered.ts";
import { appWords } from "../words/app.ts";
import { doorWords } from "../words/door.ts";
import { BoardList } from "./BoardList.tsx";
import { createDraftText } from "./chart-draft-text.ts";
import { JointDrawing } from "./JointDrawing.tsx";
import { createMaking } from "./making.ts";
import { NewBoard } from "./NewBoard.tsx";
import "./Door.css";

/** The first page. */
export function Door(): JSX.Element {
  const draft = createDraftText();
  const making = createMaking();
  const demo = createMaking();
  const [name, setName] = createSignal(remembered("name", textValue) ?? "");
  const onName = (next: string) => {
    setName(next);
    remember("name", next);
  };
  const openDemo = (hint: Hint) => {
    const copy = hint === "draft" ? demoDraft() : demoSolution();
    void demo.make(name().trim() || doorWords.defaultName, copy, hint);
  };
  return (
    <div class="door">
      <Title text={appWords.name} />
      <header class="door-head">
        <p class="door-name heading">
          <Mark />
          {appWords.name}
        </p>
        <Menu label={appWords.menu} face={<MoreIcon />} class="bare" content={ThemeChoice} />
      </header>
      <main class="door-main">
        <section class="door-lead">
          <h1 class="title">{doorWords.title}</h1>
          <p class="large door-words">{doorWords.lead}</p>
          <div class="door-demo">
            <button
              type="button"
              class="button main"
              disabled={demo.isMaking()}
              onClick={() => openDemo("draft")}
            >
              {demo.isMaking() ? doorWords.making : doorWords.demoDraft}
            </button>
            <button
              type="button"
              class="button"
              disabled={demo.isMaking()}
              onClick={() => openDemo("fitted")}
            >
              {doorWords.demoFitted}
            </button>
          </div>
          <p class="small soft">{doorWords.demoHint}</p>
          <p class="problem" role="alert">
            {demo.problem() ?? ""}
          </p>
        </section>
        <div class="door-drawing">
          <JointDrawing closed={draft.parsed()?.draft !== undefined} />
        </div>
        <div class="door-boards">
          <BoardList />
        </div>
        <div class="door-new">
          <NewBoard draft={draft} making={making} name={name()} onName={onName} />
        </div>
      </main>
    </div>
  );
}
