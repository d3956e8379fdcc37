/** Rules of thumb: what a drawing has, against figures taken by hand from the drawing's file. */
import { expect, test } from "vitest";
import type { Section } from "../../hydraulics/document/section.ts";
import { rulesOfThumb } from "../../hydraulics/sizing/rulesOfThumb.ts";
import { drawingsIn, readDrawing, samples } from "../scenarios/readDrawing.ts";
import { assessmentOf } from "../support/assessmentOf.ts";

const open = (name: string): Section => readDrawing(`${samples}/${name}`);
const rulesOf = (section: Section) => rulesOfThumb(section, assessmentOf(section));
const has = (rules: ReturnType<typeof rulesOf>, code: string) => rules.find((rule) => rule.code === code);

test("courtyard: shares, stone and flush as the file has them", () => {
  const rules = rulesOf(open("courtyard-bog.json"));

  // 1.4 × 0.7 × 0.7 m over 3.2 × 2.2 × 0.76 m of water.
  expect(has(rules, "vessel-share")?.has).toBeCloseTo(0.686 / 5.3504, 9);
  expect(has(rules, "vessel-share")?.met).toBe(true);
  expect(has(rules, "bed-share")?.has).toBeCloseTo(0.98 / 7.04, 9);
  expect(has(rules, "bed-depth")?.has).toBeCloseTo(0.45, 9);
  expect(has(rules, "coarse-below")?.met).toBe(true);
  expect(has(rules, "flush")?.met).toBe(true);
  // 70.6 mm out, 36.2 mm in.
  expect(has(rules, "outlet-larger")?.has).toBeCloseTo(70.6 / 36.2, 9);
  // The pump stands 0.3 m over the bed.
  expect(has(rules, "intake")?.has).toBeCloseTo(0.3, 9);
});

test.each(drawingsIn(samples))("%s: what is met follows from its span", (name) => {
  for (const { has: found, least, most, met, where, rule } of rulesOf(readDrawing(name))) {
    expect(where.length).toBeGreaterThan(0);
    if (found === null) expect(met, rule).toBeNull();
    else expect(met, rule).toBe((least ?? -1e9) <= found + 1e-9 && found <= (most ?? 1e9) + 1e-9);
  }
});

test("the flow turns over vessel and pond as the running state says", () => {
  const section = open("courtyard-bog.json");
  const { running } = assessmentOf(section);
  if (!running.converged) throw new Error("not solved");
  const flow = [...running.pumps.values()][0]?.flow ?? 0;
  const rules = rulesOf(section);

  expect(has(rules, "pond-turnover")?.has).toBeCloseTo((flow * 3600) / 5.3504, 9);
  expect(has(rules, "turnover")?.has).toBeCloseTo((flow * 3600) / 0.686, 9);
});
