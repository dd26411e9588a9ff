/** Laws of the timeline over random boards: remembering changes nothing, and all is in order. */
import { fillDocuments } from "@halflap/board/copy";
import { demoSolution } from "@halflap/board/demo";
import { emptyDocuments } from "@halflap/board/documents";
import { makeReader } from "@halflap/board/read";
import { makeTimeline, timelineOf } from "@halflap/timeline/passages";
import { soundEvents } from "@halflap/timeline/sound-events";
import fc from "fast-check";
import { expect, test } from "vitest";
import { randomEdit } from "./support/random-edits.ts";
import { seeded } from "./support/seeded.ts";

const seed = fc.integer({ min: 0, max: 1_000_000 });

test("S17 a timeline that remembers says what one made anew says, edit after edit", () => {
  fc.assert(
    fc.property(seed, (number) => {
      const docs = emptyDocuments();
      fillDocuments(docs, demoSolution());
      const [read, chance, timeline] = [makeReader(docs), seeded(number), makeTimeline()];
      let made = 0;
      const makeId = () => {
        made += 1;
        return `n${made}`;
      };
      for (let edit = 0; edit < 25; edit += 1) {
        randomEdit({ docs, board: read(), chance, makeId });
        const board = read();
        expect(timeline(board)).toEqual(timelineOf(board));
      }
    }),
    { numRuns: 8 },
  );
});

test("S16 no string of a lane sounds two notes at once, and no note is empty", () => {
  fc.assert(
    fc.property(seed, (number) => {
      const docs = emptyDocuments();
      fillDocuments(docs, demoSolution());
      const [read, chance] = [makeReader(docs), seeded(number)];
      let made = 0;
      for (let edit = 0; edit < 25; edit += 1) {
        const makeId = () => {
          made += 1;
          return `n${made}`;
        };
        randomEdit({ docs, board: read(), chance, makeId });
      }
      const board = read();
      const { upper, lower } = board.lanes;
      const setups = { upper: upper.setup, lower: lower.setup };
      const ends = new Map<string, number>();
      let last = 0;
      for (const event of soundEvents(timelineOf(board), setups)) {
        const string = `${event.lane} ${event.string}`;
        expect(event.start).toBeGreaterThanOrEqual(Math.max(last, ends.get(string) ?? 0));
        expect(event.end).toBeGreaterThan(event.start);
        last = event.start;
        ends.set(string, event.end);
      }
    }),
    { numRuns: 12 },
  );
});
