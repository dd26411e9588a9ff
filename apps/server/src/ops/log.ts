/**
 * Structured logs on stderr, one line an event. Names, titles, secrets and cookies never get here.
 */
export type LogFields = Readonly<Record<string, string | number | boolean>>;

export type Log = {
  info(event: string, fields?: LogFields): void;
  /** With the fault's name and message; its stack too when it is a bug. */
  fault(event: string, fault: unknown, fields?: LogFields): void;
};

/** JSON for programs, or a line that reads well. */
export const logFormats = ["json", "text"] as const;
export type LogFormat = (typeof logFormats)[number];

type Line = LogFields & { readonly at: string; readonly level: string; readonly event: string };

/** A log that writes lines through `write`. */
export function makeLog(
  write: (line: string) => void,
  now: () => Date,
  format: LogFormat = "json",
): Log {
  const line = (level: string, event: string, fields: LogFields) => {
    const whole = { at: now().toISOString(), level, event, ...fields };
    write(`${format === "json" ? JSON.stringify(whole) : readable(whole)}\n`);
  };
  return {
    info: (event, fields = {}) => line("info", event, fields),
    fault: (event, fault, fields = {}) => line("fault", event, { ...fields, ...describe(fault) }),
  };
}

/** One line whatever the values hold: what could break it is written as JSON writes it. */
function readable({ at, level, event, ...fields }: Line): string {
  const pairs = Object.entries(fields).map(([name, value]) => {
    const isPlain = typeof value !== "string" || /^[\w./:@-]+$/.test(value);
    return `${name}=${isPlain ? value : JSON.stringify(value)}`;
  });
  return [at, level, event, ...pairs].join(" ");
}

function describe(fault: unknown): LogFields {
  if (!(fault instanceof Error)) return { fault: typeof fault };
  return { fault: fault.name, message: fault.message, stack: fault.stack ?? "" };
}
