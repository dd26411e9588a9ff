/** Answers side by side: cost by cause as numbers and bars on one scale, and what else tells. */

import "./CompareTable.css";
import type { Finding } from "@halflap/checker/finding";
import type { Answer, FitResult } from "@halflap/fitter/answer";
import { createMemo, createSignal, For, type JSX, Show } from "solid-js";
import { useDesk } from "../board/desk.ts";
import { countBySign, type Sign, standing } from "../findings/reading-order.ts";
import { SeverityMark } from "../findings/SeverityMark.tsx";
import { severityCount } from "../words/findings.ts";
import { causeWords, costNumber, fitWords } from "../words/fit.ts";
import { costTable } from "./cost-table.ts";
import type { FitState } from "./create-fitting.ts";
import { placeOfBar } from "./slot-places.ts";

/** Causes that are shown before one asks for the smaller ones. */
const rowsFirst = 6;

/** The board as it is comes first. */
export function CompareTable(props: {
  readonly fit: FitState;
  readonly result: Extract<FitResult, { kind: "answers" }>;
}) {
  const desk = useDesk();
  const columns = () => [props.result.present, ...props.result.answers.map(({ costs }) => costs)];
  const table = createMemo(() => costTable(columns()));
  const [showsAll, setShowsAll] = createSignal(false);
  const shown = () => (showsAll() ? table().rows : table().rows.slice(0, rowsFirst));
  const hidden = () => table().rows.length - shown().length;
  const isPicked = (column: number) => {
    const answer = props.result.answers[column - 1];
    return answer !== undefined && answer.id === props.fit.picked()?.id;
  };
  const pick = (answer: Answer) =>
    props.fit.pick(answer.id === props.fit.picked()?.id ? undefined : answer.id);
  return (
    <div class="fit-scroll">
      <table class="fit-table small">
        <caption class="soft">{fitWords.unit}</caption>
        <thead>
          <tr>
            <th scope="col">
              <span class="spoken">{fitWords.compared}</span>
            </th>
            <th scope="col">{fitWords.now}</th>
            <For each={props.result.answers}>
              {(answer, index) => (
                <th scope="col">
                  <button
                    type="button"
                    class="button small fit-number"
                    aria-label={fitWords.look(index() + 1)}
                    aria-pressed={isPicked(index() + 1)}
                    onClick={() => pick(answer)}
                  >
                    {index() + 1}
                  </button>
                </th>
              )}
            </For>
          </tr>
        </thead>
        <tbody>
          <Row label={fitWords.altogether} isSum>
            <For each={columns()}>
              {(costs, index) => (
                <td data-picked={isPicked(index()) ? "" : undefined}>
                  <Show when={costs} fallback={<Unknown />}>
                    {(known) => costNumber(known().total)}
                  </Show>
                </td>
              )}
            </For>
          </Row>
          <For each={shown()}>
            {(row) => (
              <Row label={causeWords[row.cause]}>
                <For each={row.costs}>
                  {(cost, index) => (
                    <td data-picked={isPicked(index()) ? "" : undefined}>
                      <Show when={cost !== undefined} fallback={<Unknown />}>
                        <CostBar cost={cost ?? 0} most={table().most} />
                      </Show>
                    </td>
                  )}
                </For>
              </Row>
            )}
          </For>
          <Show when={hidden() > 0}>
            <tr>
              <td class="fit-more" colspan={columns().length + 1}>
                <button type="button" class="link" onClick={() => setShowsAll(true)}>
                  {fitWords.moreCauses(hidden())}
                </button>
              </td>
            </tr>
          </Show>
          <Row label={fitWords.findings}>
            <td>
              <Signs findings={desk.allStanding()} />
            </td>
            <For each={props.result.answers}>
              {(answer, index) => (
                <td data-picked={isPicked(index() + 1) ? "" : undefined}>
                  <Signs findings={standing(answer.findings)} />
                </td>
              )}
            </For>
          </Row>
          <MoreRows answers={props.result.answers} isPicked={isPicked} />
        </tbody>
      </table>
    </div>
  );
}

/** What only an answer has. */
function MoreRows(props: {
  readonly answers: readonly Answer[];
  readonly isPicked: (column: number) => boolean;
}) {
  const row = (label: string, cell: (answer: Answer) => JSX.Element) => (
    <Row label={label}>
      <td />
      <For each={props.answers}>
        {(answer, index) => (
          <td data-picked={props.isPicked(index() + 1) ? "" : undefined}>{cell(answer)}</td>
        )}
      </For>
    </Row>
  );
  const moved = ({ parts }: Answer) => parts.reduce((sum, { motion }) => sum + motion, 0);
  return (
    <>
      {row(fitWords.hardest, (answer) => (
        <HardestBar answer={answer} />
      ))}
      {row(fitWords.motion, (answer) => costNumber(moved(answer)))}
      {row(fitWords.differs, ({ distance }) => fitWords.share(distance))}
      {row(fitWords.proven, ({ costs, bound }) => {
        const open = costs.total - bound;
        return open > 0 ? fitWords.notProven(costNumber(open)) : fitWords.isProven;
      })}
    </>
  );
}

function Row(props: {
  readonly label: string;
  readonly isSum?: boolean;
  readonly children: JSX.Element;
}) {
  return (
    <tr data-sum={props.isSum ? "" : undefined}>
      <th scope="row">{props.label}</th>
      {props.children}
    </tr>
  );
}

/** The bar is for the eye; the number says the same. */
function CostBar(props: { readonly cost: number; readonly most: number }) {
  return (
    <span class="fit-cost" style={{ "--share": Math.max(0, props.cost) / props.most }}>
      {costNumber(props.cost)}
    </span>
  );
}

function Unknown() {
  return (
    <>
      <span aria-hidden="true">–</span>
      <span class="spoken">{fitWords.unknown}</span>
    </>
  );
}

/** Praise is no trouble, and not counted here. */
const counted: readonly Sign[] = ["stop", "fix", "look", "note"];

function Signs(props: { readonly findings: readonly Finding[] }) {
  const counts = createMemo(() => countBySign(props.findings));
  const isClean = () => counted.every((sign) => counts()[sign] === 0);
  return (
    <Show when={!isClean()} fallback={fitWords.none}>
      <span class="fit-signs">
        <For each={counted}>
          {(sign) => (
            <Show when={counts()[sign] > 0}>
              <span class="fit-sign">
                <SeverityMark severity={sign} />
                <span aria-hidden="true">{counts()[sign]}</span>
                <span class="spoken">{severityCount(sign, counts()[sign])}</span>
              </span>
            </Show>
          )}
        </For>
      </span>
    </Show>
  );
}

function HardestBar(props: { readonly answer: Answer }) {
  const desk = useDesk();
  const lane = () => props.answer.parts[0]?.lane ?? "upper";
  const found = () => placeOfBar(desk.session.board.sections, lane(), props.answer.hardest.bar);
  return (
    <Show when={found()}>
      {(bar) => (
        <button
          type="button"
          class="link"
          aria-label={fitWords.goTo(bar().number)}
          title={props.answer.hardest.words}
          onClick={() => desk.show(bar().place)}
        >
          {fitWords.bar(bar().number)}
        </button>
      )}
    </Show>
  );
}
