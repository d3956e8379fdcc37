/** What a drawing has beside what a rule wants is never shown on the wrong side of it. */
import { expect, test } from "vitest";
import { showMargin } from "../../editor/panels/quantity.ts";
import { ruleFigure } from "../../editor/panels/why/shownAs.ts";
import type { Rule } from "../../hydraulics/index.ts";

function ruled(code: string, has: number, span: Pick<Rule, "least" | "most">): string {
  const rule = { code, part: null, rule: "", quantity: "ratio", met: null, source: "worked out", where: "" } as const;
  return ruleFigure({ ...rule, ...span, has }, "metric");
}

test("a margin has two digits and its sign wherever it is read", () => {
  expect(showMargin(3.02)).toBe("3.0 ×");
  expect(ruled("margin", 3.02, { least: 1.5, most: null })).toBe("3.0 ×");
  expect(showMargin(12.34)).toBe("12 ×");
});

test("a figure close to what a rule wants keeps the digits that tell them apart", () => {
  expect(ruled("margin", 1.49, { least: 1.5, most: null })).toBe("1.49 ×");
  expect(ruled("self-venting", 0.304, { least: null, most: 0.3 })).toBe("0.304");
  expect(ruled("self-venting", 0.38, { least: null, most: 0.3 })).toBe("0.38");
});
