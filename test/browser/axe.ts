import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import type { Page } from "playwright-core";

const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

interface Violation {
  readonly id: string;
  readonly nodes: readonly { readonly html: string; readonly failureSummary?: string }[];
}

/** What axe finds, as one line a finding. */
export async function axeFinds(page: Page): Promise<readonly string[]> {
  await page.evaluate(axe);
  const found = (await page.evaluate(() =>
    (globalThis as unknown as { axe: { run(): Promise<{ violations: unknown[] }> } }).axe.run(),
  )) as { violations: Violation[] };
  return found.violations.flatMap(({ id, nodes }) =>
    nodes.map((node) => `${id}: ${node.html} ${node.failureSummary ?? ""}`),
  );
}
