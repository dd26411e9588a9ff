/** Two digits make one fret when they are typed together, and not otherwise. */
import { expect, test } from "vitest";
import { makeFretTyping } from "./fret-typing.ts";

const neck = { lowest: 0, highest: 22 };

/** "1@0 2@900" = 1 now, 2 nine hundred milliseconds later; "1@0:E" = on a place called E. */
function typed(text: string, range = neck): readonly (number | undefined)[] {
  const typing = makeFretTyping();
  return text.split(" ").map((word) => {
    const [key = "", at = "", place = ""] = word.split(/[@:]/);
    return typing({ key, timeStamp: Number(at) }, place, range);
  });
}

test.each<[string, string, readonly (number | undefined)[]]>([
  ["one digit", "7@0", [7]],
  ["a second digit joins", "1@0 2@900", [1, 12]],
  ["a second digit that comes later is a fret of its own", "1@0 2@1100", [1, 2]],
  ["a digit on another place is one too", "1@0:E 2@100:A", [1, 2]],
  ["a key between them parts them", "1@0 ArrowRight@100 2@200", [1, undefined, 2]],
  ["a second digit that leaves the neck starts anew", "3@0 1@100 2@200", [3, 1, 12]],
  ["after two digits a new number begins", "1@0 2@100 3@200", [1, 12, 3]],
  ["nothing joins an open string", "0@0 5@100", [0, 5]],
])("%s", (_, keys, frets) => {
  expect(typed(keys)).toEqual(frets);
});

test("a fret behind the capo is not typed, but begins one that is not behind it", () => {
  expect(typed("1@0 2@100", { lowest: 3, highest: 22 })).toEqual([undefined, 12]);
});
