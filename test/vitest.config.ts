import { resolve } from "node:path";
import { defineConfig } from "vitest/config";

export default defineConfig({
  root: resolve(import.meta.dirname, ".."),
  cacheDir: ".cache/vitest",
  test: {
    reporters: ["default", "./test/tally.ts"],
    // Two files at a time, and the browser only when the rest is done: its gestures are timed by the clock.
    maxWorkers: 2,
    // Files share what they import: none of them leaves anything behind, and importing took longer than many tests.
    isolate: false,
    projects: [
      {
        extends: true,
        test: {
          name: "node",
          include: ["test/**/*.test.ts"],
          exclude: ["test/browser/**"],
          sequence: { groupOrder: 0 },
          // Long enough for a machine that is busy with something else: speed is measured by the bench.
          testTimeout: 60_000,
        },
      },
      {
        // The built page in a real Chromium. One file after the other: two windows that draw at once fight for the
        // same two processors, and gain nothing.
        extends: true,
        test: {
          name: "app",
          include: ["test/browser/**/*.test.ts"],
          globalSetup: "./test/support/serve.ts",
          fileParallelism: false,
          maxWorkers: 1,
          sequence: { groupOrder: 1 },
          testTimeout: 60_000,
          // A page answers in a moment; on a busy machine the moment is longer than vitest's one second.
          expect: { poll: { timeout: 8000 } },
          hookTimeout: 60_000,
        },
      },
    ],
  },
});
