/**
 * Which clocks of which client are deleted: sorted, disjoint ranges, start included, end excluded.
 */
export type Range = { readonly start: number; readonly end: number };
export type DeleteRanges = Map<number, Range[]>;

/** Whether a range is deleted from end to end. */
export function coversRange(deleted: DeleteRanges, client: number, range: Range): boolean {
  const ranges = deleted.get(client) ?? [];
  const at = lastStartingAtOrBefore(ranges, range.start);
  return at >= 0 && (ranges[at]?.end ?? 0) >= range.end;
}

/** Adds a range, joining those that it touches. */
export function addRange(deleted: DeleteRanges, client: number, range: Range): void {
  const ranges = deleted.get(client);
  if (ranges === undefined) {
    deleted.set(client, [range]);
    return;
  }
  const last = ranges.at(-1);
  if (last !== undefined && range.start === last.end) {
    ranges[ranges.length - 1] = { start: last.start, end: range.end };
    return;
  }
  let first = lastStartingAtOrBefore(ranges, range.start);
  if (first < 0 || (ranges[first]?.end ?? 0) < range.start) first += 1;
  let after = first;
  let { start, end } = range;
  for (let next = ranges[after]; next !== undefined && next.start <= end; next = ranges[after]) {
    start = Math.min(start, next.start);
    end = Math.max(end, next.end);
    after += 1;
  }
  ranges.splice(first, after - first, { start, end });
}

/**
 * Adds many ranges, in any order, in one walk over old and new: one after the other they would move
 * what lies behind them each time, which from the last to the first takes minutes.
 */
export function addRanges(deleted: DeleteRanges, client: number, ranges: readonly Range[]): void {
  const [first, second] = ranges;
  if (first !== undefined && second === undefined) {
    addRange(deleted, client, first);
    return;
  }
  const joined: Range[] = [];
  const sorted = [...(deleted.get(client) ?? []), ...ranges].sort((a, b) => a.start - b.start);
  for (const range of sorted) {
    const last = joined.at(-1);
    if (last === undefined || last.end < range.start) joined.push(range);
    else if (last.end < range.end) joined[joined.length - 1] = { ...last, end: range.end };
  }
  deleted.set(client, joined);
}

/** Index of the last range that starts at or before a clock; -1 when there is none. */
function lastStartingAtOrBefore(ranges: readonly Range[], clock: number): number {
  let low = 0;
  let high = ranges.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((ranges[middle]?.start ?? 0) <= clock) low = middle + 1;
    else high = middle;
  }
  return low - 1;
}
