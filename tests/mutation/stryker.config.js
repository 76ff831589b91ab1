import room from "./rooms.js";

/** Words are held by the test of words, and what runs once as a module is loaded is not run again by the runner. */
export default {
  testRunner: "vitest",
  vitest: { configFile: "tests/mutation/vitest.config.js", related: true },
  mutate: process.env.LINES?.split(",") ?? room.mutate,
  mutator: { excludedMutations: ["StringLiteral"] },
  ignoreStatic: true,
  // TypeScript 7 has no reader of its configuration that could be called; the runner needs none.
  tsconfigFile: "none",
  disableTypeChecks: false,
  ignorePatterns: ["docs", "reports", "/examples/pictures"],
  reporters: ["clear-text", "json"],
  clearTextReporter: { allowColor: false, logTests: false },
  concurrency: 2,
};
