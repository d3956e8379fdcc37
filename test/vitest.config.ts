import { resolve } from "node:path";
import { defineConfig } from "vitest/config";

export default defineConfig({
  root: resolve(import.meta.dirname, ".."),
  cacheDir: ".cache/vitest",
  test: {
    reporters: ["default", "./test/tally.ts"],
    // Files share what they import: none of them leaves anything behind, and importing took longer than many tests.
    isolate: false,
    projects: [
      {
        extends: true,
        test: {
          name: "node",
          include: ["test/**/*.test.ts"],
          exclude: ["test/browser/**"],
          // Long enough for a machine that is busy with something else: speed is measured by the bench.
          testTimeout: 60_000,
        },
      },
      {
        // The built page in a real Chromium.
        extends: true,
        test: {
          name: "app",
          include: ["test/browser/**/*.test.ts"],
          globalSetup: "./test/support/serve.ts",
          testTimeout: 60_000,
          // A page answers in a moment; on a busy machine the moment is longer than vitest's one second.
          expect: { poll: { timeout: 8000 } },
          hookTimeout: 60_000,
        },
      },
    ],
  },
});
