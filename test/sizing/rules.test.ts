/** Rules of thumb: what a drawing has, against figures taken by hand from the drawing's file. */
import { readdirSync, readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { assess } from "../../hydraulics/assess.ts";
import { readSection } from "../../hydraulics/document/read.ts";
import type { Section } from "../../hydraulics/document/section.ts";
import { rulesOfThumb } from "../../hydraulics/sizing/rulesOfThumb.ts";

const folder = new URL("../../samples/", import.meta.url);
const open = (name: string): Section => {
  const read = readSection(readFileSync(new URL(name, folder), "utf8"));
  if (!read.ok) throw new Error(name);
  return read.value;
};
const rulesOf = (section: Section) => rulesOfThumb(section, assess(section, { quick: true }));
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

test.each(readdirSync(folder).filter((name) => name.endsWith(".json")))(
  "%s: what is met follows from its span",
  (name) => {
    for (const { has: found, least, most, met, where, rule } of rulesOf(open(name))) {
      expect(where.length).toBeGreaterThan(0);
      if (found === null) expect(met, rule).toBeNull();
      else expect(met, rule).toBe((least ?? -1e9) <= found + 1e-9 && found <= (most ?? 1e9) + 1e-9);
    }
  },
);

test("the flow turns over vessel and pond as the running state says", () => {
  const section = open("courtyard-bog.json");
  const { running } = assess(section, { quick: true });
  if (!running.converged) throw new Error("not solved");
  const flow = [...running.pumps.values()][0]?.flow ?? 0;
  const rules = rulesOf(section);

  expect(has(rules, "pond-turnover")?.has).toBeCloseTo((flow * 3600) / 5.3504, 9);
  expect(has(rules, "turnover")?.has).toBeCloseTo((flow * 3600) / 0.686, 9);
});
