// Runs the tests in two runs at a time: those of the library and of the page's parts, and those in a browser; two files
// of each at a time. A browser test waits now and then for what a page says or shows, and the others fill the gaps: they
// yield to the browser's, and have both processors once those are done.
// The browser's words wait until the others have spoken. Ends with `N passed, N failed, N skipped`, both together.
import { spawn } from "node:child_process";
import { createRequire } from "node:module";
import { getPriority, setPriority } from "node:os";
import { dirname, join } from "node:path";

const vitest = join(dirname(createRequire(import.meta.url).resolve("vitest/package.json")), "vitest.mjs");
const tally = /^(\d+) passed, (\d+) failed, (\d+) skipped$/;

/** One run of so many files at a time: what it says, line by line, but for its tally, which is given back. */
function run(project, files, say, yields = false) {
  const asked = ["run", "--config", "test/vitest.config.ts", "--project", project, `--maxWorkers=${files}`];
  const child = spawn(process.execPath, [vitest, ...asked], {
    stdio: ["inherit", "pipe", "pipe"],
    env: { ...process.env, ...(process.stdout.isTTY && !process.env.NO_COLOR ? { FORCE_COLOR: "1" } : {}) },
  });
  // 10: still a tenth of a processor that both want whole.
  if (yields && child.pid) setPriority(child.pid, Math.max(getPriority(), 10));
  // A run that ends without a tally counts as one failure.
  let counts = [0, 1, 0];
  const listen = (stream) => {
    let rest = "";
    stream.setEncoding("utf8");
    stream.on("data", (text) => {
      const lines = (rest + text).split("\n");
      rest = lines.pop();
      for (const line of lines) {
        const found = tally.exec(line);
        if (found) counts = found.slice(1).map(Number);
        else say(line);
      }
    });
    stream.on("end", () => rest && say(rest));
  };
  listen(child.stdout);
  listen(child.stderr);
  return new Promise((resolve) => {
    child.on("error", (error) => {
      say(String(error));
      resolve({ counts, failed: true });
    });
    child.on("close", (code) => resolve({ counts, failed: code !== 0 }));
  });
}

const waiting = [];
let later = (line) => waiting.push(line);
const browser = run("app", 2, (line) => later(line));
const node = await run("node", 2, (line) => console.log(line), true);
for (const line of waiting) console.log(line);
later = (line) => console.log(line);
const runs = [node, await browser];
const [passed, failed, skipped] = [0, 1, 2].map((k) => runs.reduce((sum, { counts }) => sum + counts[k], 0));
console.log(`${passed} passed, ${failed} failed, ${skipped} skipped`);
process.exitCode = runs.some((each) => each.failed) || failed > 0 ? 1 : 0;
