/** What stands in memory and on disk at the moment, for Prometheus. */
import { memoryUsage, uptime } from "node:process";
import { type DocumentName, documentNames } from "@halflap/board/documents";
import type { Family } from "./exposition.ts";

export type Standing = {
  readonly version: string;
  /** Documents in memory. */
  rooms(): number;
  /** Documents that can't be read and are set aside, by their name. */
  setAside(): ReadonlyMap<DocumentName, number>;
  sockets(): number;
  /** Bytes of the store on disk; undefined where another program keeps it. */
  storeBytes(): number | undefined;
};

/** Read anew at each call. */
export function gauges({
  version,
  rooms,
  setAside,
  sockets,
  storeBytes,
}: Standing): readonly Family[] {
  const { rss, heapUsed } = memoryUsage();
  const store = storeBytes();
  const unread = setAside();
  return [
    { ...gauge("halflap_build", "1, with the version.", 1), samples: [build(version)] },
    gauge("halflap_rooms", "Documents in memory.", rooms()),
    {
      ...gauge("halflap_documents_set_aside", "Documents that can't be read.", 0),
      samples: documentNames.map((document) => {
        return { labels: { document }, value: unread.get(document) ?? 0 };
      }),
    },
    gauge("halflap_sockets", "Open sockets.", sockets()),
    ...(store === undefined ? [] : [gauge("halflap_store_bytes", "The store on disk.", store)]),
    gauge("process_resident_memory_bytes", "Memory of the process.", rss),
    gauge("nodejs_heap_size_used_bytes", "Memory of its objects.", heapUsed),
    gauge("process_uptime_seconds", "Seconds since the start.", uptime()),
  ];
}

function build(version: string) {
  return { labels: { version }, value: 1 };
}

function gauge(name: string, help: string, value: number): Family {
  return { name, help, type: "gauge", samples: [{ value }] };
}
