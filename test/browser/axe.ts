import axe, { type AxeResults } from "axe-core";
import type { Page } from "playwright-core";

/** What axe finds, as one line a finding. */
export async function axeFinds(page: Page): Promise<readonly string[]> {
  await page.evaluate(axe.source);
  const { violations } = await page.evaluate(() =>
    (globalThis as unknown as { axe: { run(): Promise<AxeResults> } }).axe.run(),
  );
  return violations.flatMap(({ id, nodes }) => nodes.map((node) => `${id}: ${node.html} ${node.failureSummary ?? ""}`));
}
