import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    include: ["tests/**/*.test.ts"],
    pool: "forks",
    maxWorkers: 2,
    testTimeout: 240_000,
    hookTimeout: 240_000,
  },
});
