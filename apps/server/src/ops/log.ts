/**
 * Structured logs: one JSON object a line on stderr. Names, titles, secrets and cookies never get
 * here.
 */
export type LogFields = Readonly<Record<string, string | number | boolean>>;

export type Log = {
  info(event: string, fields?: LogFields): void;
  /** With the fault's name and message; its stack too when it is a bug. */
  fault(event: string, fault: unknown, fields?: LogFields): void;
};

/** A log that writes lines through `write`. */
export function makeLog(write: (line: string) => void, now: () => Date): Log {
  const line = (level: string, event: string, fields: LogFields) =>
    write(`${JSON.stringify({ at: now().toISOString(), level, event, ...fields })}\n`);
  return {
    info: (event, fields = {}) => line("info", event, fields),
    fault: (event, fault, fields = {}) => line("fault", event, { ...fields, ...describe(fault) }),
  };
}

function describe(fault: unknown): LogFields {
  if (!(fault instanceof Error)) return { fault: typeof fault };
  return { fault: fault.name, message: fault.message, stack: fault.stack ?? "" };
}
