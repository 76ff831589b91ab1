import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    include: ["tests/bench/*.bench.ts"],
    testTimeout: 3_600_000,
    pool: "forks",
    fileParallelism: false,
    disableConsoleIntercept: true,
  },
});
