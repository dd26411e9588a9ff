/** W1: changes that `talk` keeps are counted for each member of a board, and for the board. */
import { memberId } from "@halflap/board/talk";
import {
  boardChangesDaily,
  memberChangesDaily,
  memberChangesPerMinute,
} from "@halflap/wire/limits";
import { expect, test } from "vitest";
import { makeBoardId } from "../store/secret.ts";
import { Refused } from "./answers.ts";
import { changeRates } from "./change-rates.ts";

const [board, another] = [makeBoardId(), makeBoardId()];
const [ada, ben] = [memberId("ada"), memberId("ben")];
const minute = 60_000;

function rates() {
  let at = 0;
  const count = changeRates(() => at);
  /** How many of so many were let through. */
  const tried = (times: number, of = board, who = ada) => {
    let passed = 0;
    for (let i = 0; i < times; i += 1) {
      try {
        count(of, who);
        passed += 1;
      } catch (fault) {
        expect(fault).toBeInstanceOf(Refused);
        expect(fault).toMatchObject({ code: "too-many" });
      }
    }
    return passed;
  };
  return {
    tried,
    wait: (ms: number) => {
      at += ms;
    },
  };
}

test("a member makes so many in a minute; others and other boards have their own", () => {
  const { tried, wait } = rates();
  expect(tried(100)).toBe(memberChangesPerMinute);
  expect(tried(1, board, ben)).toBe(1);
  expect(tried(1, another)).toBe(1);
  wait(minute);
  expect(tried(100)).toBe(memberChangesPerMinute);
});

test("a member makes so many in a day", () => {
  const { tried, wait } = rates();
  let made = 0;
  for (let i = 0; i < 60; i += 1) {
    made += tried(2 * memberChangesPerMinute);
    wait(minute);
  }
  const hourly = memberChangesDaily / 24;
  expect(made).toBeGreaterThanOrEqual(memberChangesDaily);
  expect(made).toBeLessThanOrEqual(memberChangesDaily + hourly);
});

test("a board's members together make so many in a day, and another board's are let be", () => {
  const { tried } = rates();
  let made = 0;
  for (let i = 0; i < boardChangesDaily; i += 1) made += tried(1, board, memberId(`m${i}`));
  expect(made).toBe(boardChangesDaily);
  expect(tried(1, board, ben)).toBe(0);
  expect(tried(1, another, ben)).toBe(1);
});
