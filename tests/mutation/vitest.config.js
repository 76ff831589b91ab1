import { defineConfig } from "vitest/config";
import room from "./rooms.js";

export default defineConfig({
  test: { include: room.tests, testTimeout: 60_000, hookTimeout: 120_000, pool: "forks" },
});
