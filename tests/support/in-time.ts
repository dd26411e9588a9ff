/** What a test waits for, but not for ever. */

/** The thing itself. Rejects with what is missing once the time is over. */
export async function inTime<T>(ms: number, thing: Promise<T>, missing: string): Promise<T> {
  let timer: ReturnType<typeof setTimeout> | undefined;
  const over = new Promise<never>((_, reject) => {
    timer = setTimeout(() => reject(new Error(`${missing} within ${ms / 1000} s`)), ms);
  });
  try {
    return await Promise.race([thing, over]);
  } finally {
    clearTimeout(timer);
  }
}
