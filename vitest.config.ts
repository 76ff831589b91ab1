import { availableParallelism } from "node:os";
import { defineConfig } from "vitest/config";

/**
 * Tests of the rooms that hold no process and no thread: one process takes many, and reads modules and tables once.
 * The test of the safety case asks which functions run, and so loads them itself.
 */
const TOGETHER = [
  "contract/**/*",
  "insight/**/*",
  "kitchen/**/*",
  "ledger/**/*",
  "pages/**/*",
  "quantity/**/*",
  "reading/**/*",
  "safety/**/!(case)",
  "scenario/**/*",
  "waste/**/*",
  "waste-accounts/**/*",
  "weigh-in/**/*",
  "yields/**/*",
].map((files) => `tests/${files}.test.ts`);

export default defineConfig({
  test: {
    testTimeout: 180_000,
    hookTimeout: 120_000,
    pool: "forks",
    maxWorkers: availableParallelism(),
    projects: [
      { extends: true, test: { name: "together", include: TOGETHER, isolate: false } },
      { extends: true, test: { name: "apart", include: ["tests/**/*.test.ts"], exclude: TOGETHER } },
    ],
  },
});
