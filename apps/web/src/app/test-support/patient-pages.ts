/** A busy machine draws late: what a test looks for on a page has as long as the test itself. */
if (typeof document !== "undefined") {
  const { configure } = await import("@solidjs/testing-library");
  configure({ asyncUtilTimeout: 30_000 });
}

export {};
