/** What happened in this process so far, counted; nothing of it names a board or a person. */
import type { Family, Sample } from "./exposition.ts";

/** Upper ends of the buckets for a commit, in seconds: a fast disk, a slow one, and trouble. */
export const appendSecondsEnds = [
  0.001, 0.0025, 0.005, 0.01, 0.025, 0.05, 0.1, 0.25, 0.5, 1, 2.5, 10,
] as const;

/** One for the process; every kind that is counted comes from a closed list of ours. */
export class Tallies {
  private readonly updates = new Map<string, number>();
  private readonly refusals = new Map<string, number>();
  private readonly closes = new Map<string, number>();
  private readonly appends = appendSecondsEnds.map(() => 0);
  private appendSeconds = 0;
  private appendCount = 0;
  private storedBytes = 0;

  /** An update was decided: stored, gone, foreign, or failed with its whole commit. */
  update(outcome: string, bytes: number): void {
    raise(this.updates, outcome);
    if (outcome === "stored") this.storedBytes += bytes;
  }

  /** Something was refused, on a socket or as an answer to a request. */
  refused(kind: string): void {
    raise(this.refusals, kind);
  }

  /** A socket ended with a code of ours. */
  closed(kind: string): void {
    raise(this.closes, kind);
  }

  /** A commit took so long, whether it succeeded or not. */
  append(seconds: number): void {
    this.appendCount += 1;
    this.appendSeconds += seconds;
    for (const [i, end] of appendSecondsEnds.entries()) {
      if (seconds <= end) this.appends[i] = (this.appends[i] ?? 0) + 1;
    }
  }

  /** All of it, to be read by Prometheus. */
  families(): readonly Family[] {
    return [
      counter("halflap_updates_total", "Updates decided.", samples(this.updates, "outcome")),
      counter("halflap_stored_bytes_total", "Bytes of stored updates.", [
        { value: this.storedBytes },
      ]),
      counter(
        "halflap_refusals_total",
        "Refused updates and requests, by reason.",
        samples(this.refusals, "kind"),
      ),
      counter(
        "halflap_sockets_closed_total",
        "Sockets that ended, by the reason for it.",
        samples(this.closes, "kind"),
      ),
      {
        name: "halflap_append_seconds",
        help: "Time from handing rows to the store until they are on disk.",
        type: "histogram",
        samples: this.appendSamples(),
      },
    ];
  }

  private appendSamples(): readonly Sample[] {
    const buckets = appendSecondsEnds.map((end, i) => ({
      suffix: "_bucket",
      labels: { le: String(end) },
      value: this.appends[i] ?? 0,
    }));
    return [
      ...buckets,
      { suffix: "_bucket", labels: { le: "+Inf" }, value: this.appendCount },
      { suffix: "_sum", value: this.appendSeconds },
      { suffix: "_count", value: this.appendCount },
    ];
  }
}

function counter(name: string, help: string, samples: readonly Sample[]): Family {
  return { name, help, type: "counter", samples };
}

function samples(counts: ReadonlyMap<string, number>, label: string): readonly Sample[] {
  return [...counts].map(([kind, value]) => ({ labels: { [label]: kind }, value }));
}

function raise(counts: Map<string, number>, kind: string): void {
  counts.set(kind, (counts.get(kind) ?? 0) + 1);
}
