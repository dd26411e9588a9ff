/** The checking worker: a desk between the page's questions and its own answers. */
import { makeCheckDesk } from "./check-desk.ts";
import type { CheckAnswer, CheckQuestion } from "./check-messages.ts";

const desk = makeCheckDesk(
  (answer: CheckAnswer) => self.postMessage(answer),
  (task) => setTimeout(task),
);
self.addEventListener("message", (event: MessageEvent<CheckQuestion>) => desk.ask(event.data));
