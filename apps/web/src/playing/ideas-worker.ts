/** The worker in which patterns are tried against the other part. */
import { strumIdeas } from "@halflap/fitter/interlock";
import type { IdeasQuestion, IdeasReply } from "./ideas-line.ts";

self.addEventListener("message", ({ data }: MessageEvent<IdeasQuestion>) => {
  const { question, board, lane, section } = data;
  const reply: IdeasReply = { question, ideas: strumIdeas(board, lane, section) };
  self.postMessage(reply);
});
