import type { Reporter, TestModule } from "vitest/node";

/** Closes the run with one line that says all: `N passed, N failed, N skipped`. */
export default class Tally implements Reporter {
  onTestRunEnd(modules: ReadonlyArray<TestModule>, errors: ReadonlyArray<unknown>): void {
    const count = { passed: 0, failed: 0, skipped: 0, pending: 0 };
    // A file that did not load and an error outside of any test are failures without a test to count them.
    let loose = errors.length;
    for (const module of modules) {
      for (const test of module.children.allTests()) count[test.result().state] += 1;
      if (module.state() === "failed" && [...module.children.allTests("failed")].length === 0) loose += 1;
    }
    const failed = count.failed + count.pending + loose;
    // On exit, so that it stands below vitest's own summary.
    process.on("exit", () => {
      console.log(`${count.passed} passed, ${failed} failed, ${count.skipped} skipped`);
    });
  }
}
