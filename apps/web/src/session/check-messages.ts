/** What the page and its checking worker say to each other. */
import type { Finding } from "@halflap/checker/finding";
import type { WayOut } from "@halflap/checker/ways-out";
import type { DocumentStates, DocumentUpdate } from "./board-feed.ts";

export type CheckQuestion =
  /** These are the documents from now on, whole; whether to tell what is found in them. */
  | {
      readonly kind: "start";
      readonly documents: DocumentStates;
      readonly tells: boolean;
    }
  /** One of them changed. */
  | DocumentUpdate
  /** What could be done about a finding. */
  | { readonly kind: "ways"; readonly question: number; readonly finding: string };

export type CheckAnswer =
  /** All findings by id in reading order, and those that are new or say another thing. */
  | {
      readonly kind: "findings";
      readonly order: readonly string[];
      readonly changed: readonly Finding[];
    }
  | { readonly kind: "ways"; readonly question: number; readonly ways: readonly WayOut[] };

/** Takes questions; answers come later. */
export type CheckDesk = { ask(question: CheckQuestion): void };
