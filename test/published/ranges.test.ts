import { expect, test } from "vitest";
import {
  darcyWeisbachRange,
  ergunRange,
  hazenWilliamsRange,
  inletRange,
  stokesRange,
} from "../../hydraulics/formulas/range.ts";
import { sizeSeries } from "../../hydraulics/formulas/sizes.ts";
import { inch } from "../../hydraulics/formulas/units.ts";

const inside = { Re: 60000, D: 0.06, V: 1, T: 15 };

test("turbulent water near 15 °C in a wide bore is inside the range of Hazen-Williams", () => {
  expect(hazenWilliamsRange(inside)).toEqual([]);
});

test.each([
  ["laminar", { Re: 1500 }],
  ["between laminar and turbulent", { Re: 3000 }],
  ["50 mm", { D: 0.0499 }],
  ["3 m/s", { V: 3.01 }],
  ["15 °C", { T: 30 }],
])("one step outside gives one reason in words: %s", (word, change) => {
  const reasons = hazenWilliamsRange({ ...inside, ...change });

  expect(reasons).toHaveLength(1);
  expect(reasons[0]).toContain(word);
});

test("the other laws name their limits too", () => {
  expect(darcyWeisbachRange({ Re: 50000, D: 0.05, roughness: 1.5e-6 })).toEqual([]);
  expect(darcyWeisbachRange({ Re: 50000, D: 0.016, roughness: 1e-3 })).toHaveLength(1);
  expect(inletRange(0.03)).toEqual([]);
  expect(inletRange(0.02)).toHaveLength(1);
  expect(ergunRange(1.4e-3, 0.02, 0.4, 1.1e-3, 999)).toEqual([]);
  expect(ergunRange(0.5, 0.02, 0.4, 1.1e-3, 999)).toHaveLength(1);
  expect(stokesRange(1.4e-3, 1.7e-4, 1.1e-3, 999)).toEqual([]);
  expect(stokesRange(0.02, 1e-3, 1.1e-3, 999)).toHaveLength(1);
});

// Source: ASTM D1785, outside diameter and least wall of Schedule 40 in inches,
// as a public chart gives them. Read there.
test.each([
  ["½ in", 0.84, 0.109],
  ["¾ in", 1.05, 0.113],
  ["1 in", 1.315, 0.133],
  ["1¼ in", 1.66, 0.14],
  ["1½ in", 1.9, 0.145],
  ["2 in", 2.375, 0.154],
  ["2½ in", 2.875, 0.203],
  ["3 in", 3.5, 0.216],
  ["4 in", 4.5, 0.237],
])("Schedule 40 %s has the bore that its walls leave", (name, outside, wall) => {
  const size = sizeSeries.find((series) => series.name === "PVC Schedule 40")?.sizes.find((one) => one.name === name);

  expect(Math.abs((size?.bore ?? 0) - (outside - 2 * wall) * inch)).toBeLessThan(1e-4);
});

// Source: ASTM D2241, pipe of iron pipe size. Least walls of 3 and 4 in and bores of SDR 26 in 1, 2, 3 and 4 in: the
// Hydraulic Institute's table "Plastic (Iron Pipe Size, IPS) per ASTM D2241" and a table of friction in PVC class 160
// ("actual inside diameter" 1.195, 2.193, 3.230, 4.154 in). The others: a pipe maker's table of average walls, which are
// 0.010 in over the least ones (and 0.009 to 0.013 in where the two can be compared). All read there.
test.each([
  [
    "PVC SDR 21 (Class 200)",
    [
      ["¾ in", 1.05, 0.06],
      ["1 in", 1.315, 0.063],
      ["1¼ in", 1.66, 0.079],
      ["1½ in", 1.9, 0.09],
      ["2 in", 2.375, 0.113],
      ["2½ in", 2.875, 0.137],
      ["3 in", 3.5, 0.167],
      ["4 in", 4.5, 0.214],
    ],
  ],
  [
    "PVC SDR 26 (Class 160)",
    [
      ["1 in", 1.315, 0.06],
      ["1¼ in", 1.66, 0.064],
      ["1½ in", 1.9, 0.073],
      ["2 in", 2.375, 0.091],
      ["2½ in", 2.875, 0.11],
      ["3 in", 3.5, 0.135],
      ["4 in", 4.5, 0.173],
    ],
  ],
] as const)("%s has the bores that its walls leave", (name, rows) => {
  const sizes = sizeSeries.find((series) => series.name === name)?.sizes ?? [];
  const dimensionRatio = Number(/SDR (\d+)/.exec(name)?.[1]);

  expect(sizes.map((size) => size.name)).toEqual(rows.map(([size]) => size));
  for (const [k, [size, outside, wall]] of rows.entries()) {
    expect(Math.abs((sizes[k]?.bore ?? 0) - (outside - 2 * wall) * inch), size).toBeLessThan(1e-4);
    // The series is named by it; no wall is under 0.060 in.
    expect(Math.abs(wall - Math.max(0.06, outside / dimensionRatio)), size).toBeLessThan(0.001);
  }
});

// Source: least walls in mm of DIN 8062 series 4 and 5 and of EN 12201, public charts. Read there.
test.each([
  ["PVC-U metric, SDR 21 (PN 10)", [25, 32, 40, 50, 63, 75, 90, 110], [1.5, 1.8, 1.9, 2.4, 3.0, 3.6, 4.3, 5.3]],
  [
    "PVC-U metric, SDR 13.6 (PN 16)",
    [20, 25, 32, 40, 50, 63, 75, 90, 110],
    [1.5, 1.9, 2.4, 3.0, 3.7, 4.7, 5.6, 6.7, 8.2],
  ],
  ["PE, SDR 17", [32, 40, 50, 63, 75, 90, 110], [2.0, 2.4, 3.0, 3.8, 4.5, 5.4, 6.6]],
  ["PE, SDR 11", [20, 25, 32, 40, 50, 63, 75, 90, 110], [2.0, 2.3, 3.0, 3.7, 4.6, 5.8, 6.8, 8.2, 10.0]],
])("%s has the bores that its walls leave", (name, outside, walls) => {
  const bores = sizeSeries.find((series) => series.name === name)?.sizes.map(({ bore }) => Math.round(bore * 1e4) / 10);

  expect(bores).toEqual(outside.map((one, i) => Math.round((one - 2 * walls[i]!) * 10) / 10));
});

test("in every series the bores rise with the size", () => {
  for (const { name, sizes } of sizeSeries) {
    for (let i = 1; i < sizes.length; i++) expect(sizes[i]!.bore, name).toBeGreaterThan(sizes[i - 1]!.bore);
  }
});
