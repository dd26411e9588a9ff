/**
 * A pedal's key is the pedal's wherever nobody writes.
 *
 * @vitest-environment jsdom
 */
import { createRoot } from "solid-js";
import { afterEach, beforeEach, expect, test } from "vitest";
import { remember } from "../session/remembered.ts";
import { createPedal } from "./create-pedal.ts";

const fields = {
  "a slider": "<input type=range>",
  "a list": "<select><option>1</option></select>",
  "a box to tick": "<input type=checkbox>",
  "a text": "<input>",
  "a number": "<input type=number>",
  "a longer text": "<textarea></textarea>",
  "a dialog": "<dialog open><button>Sure</button></dialog>",
  "a button": "<button>Stop</button>",
};

let close = () => {};
let acted: string[] = [];

beforeEach(() => {
  remember("pedal", { play: "ArrowDown", next: " " });
  acted = [];
  close = createRoot((dispose) => {
    createPedal((action) => acted.push(action));
    return dispose;
  });
});
afterEach(() => {
  close();
  document.body.replaceChildren();
});

/** What the pedal does when the field has the focus, and whether the field gets the key too. */
function press(field: keyof typeof fields, key: string) {
  document.body.innerHTML = fields[field];
  const target = document.querySelector("dialog *, body > *") ?? document.body;
  let isTyped = false;
  target.addEventListener("keydown", () => {
    isTyped = true;
  });
  const event = new KeyboardEvent("keydown", { key, bubbles: true, cancelable: true });
  target.dispatchEvent(event);
  return { acted: acted.splice(0), isTyped };
}

test.each(["a slider", "a list", "a box to tick", "a button"] as const)("over %s", (field) => {
  expect(press(field, "ArrowDown")).toEqual({ acted: ["play"], isTyped: false });
});

test.each(["a text", "a number", "a longer text", "a dialog"] as const)("not in %s", (field) => {
  expect(press(field, "ArrowDown")).toEqual({ acted: [], isTyped: true });
});

test.each(["a list", "a box to tick", "a button"] as const)("space still presses %s", (field) => {
  expect(press(field, " ")).toEqual({ acted: [], isTyped: true });
});
