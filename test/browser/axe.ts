import axe, { type AxeResults, type RunOptions } from "axe-core";
import type { Page } from "playwright-core";

/** What axe finds, as one line a finding. All its rules are run; what they are content with stays in the page, for
 * telling it took four times as long as looking. */
export async function axeFinds(page: Page): Promise<readonly string[]> {
  // Half a megabyte, that stays until the page is loaded anew.
  if (!(await page.evaluate(() => "axe" in globalThis))) await page.evaluate(axe.source);
  return await page.evaluate(async () => {
    const { run } = (globalThis as unknown as { axe: { run(options: RunOptions): Promise<AxeResults> } }).axe;
    const { violations } = await run({ resultTypes: ["violations"] });
    return violations.flatMap(({ id, nodes }) =>
      nodes.map((node) => `${id}: ${node.html} ${node.failureSummary ?? ""}`),
    );
  });
}
