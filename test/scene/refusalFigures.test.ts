/** Figures in the words of a refusal: those that a person needs to see what was wrong, and no more. */
import { describe, expect, test } from "vitest";
import { readQuantity, showNumber } from "../../editor/panels/quantity.ts";
import { refusalFigures } from "../../editor/sheet/refusalFigures.ts";
import { fieldText } from "../../editor/sheet/units.ts";
import { ranges } from "../../hydraulics/document/limits.ts";

const metric = refusalFigures("metric");
const us = refusalFigures("us");

describe("a range", () => {
  test("ends without noughts that tell nothing", () => {
    expect(metric.range(10, 300, "number")).toBe("10 to 300");
    expect(metric.range(0.01, 1e6, "number")).toBe("0.01 to 1,000,000");
    expect(metric.range(0, 1, "share")).toBe("0 % to 100 %");
    expect(metric.range(-10_000, 10_000, "length")).toBe("−10,000 m to 10,000 m");
    expect(metric.range(0.001, 2, "bore")).toBe("1 mm to 2,000 mm");
    expect(us.range(0.001, 10_000, "length")).toBe("0.039 in to 32,808.4 ft");
    expect(us.range(-100, 100, "level")).toBe("−328.08 ft to +328.08 ft");
    expect(metric.range(0, 1000, "head")).toBe("0 m to 1,000 m");
  });

  test("no limit of the reader is told with noughts at its end, or as nothing where it is something", () => {
    for (const { min, max, measure } of Object.values(ranges))
      for (const amounts of [metric, us]) {
        const words = amounts.range(min, max, measure);
        expect(words).not.toMatch(/\.\d*0(?!\d)/);
        if (min !== 0 && measure !== "temperature") expect(words).not.toMatch(/^[±+−]?0(?![.\d])/);
      }
  });
});

describe("what was found", () => {
  test("is told with the digits that matter", () => {
    expect(metric.found(9999, "number")).toBe("9,999");
    expect(metric.found(-0.03, "share")).toBe("−3 %");
    expect(metric.found(1.00004, "share")).toBe("100.004 %");
    expect(metric.found(0.05, "length")).toBe("50 mm");
    expect(us.found(1000, "level")).toBe("3280.84 ft");
    expect(metric.found(-0.2004, "level")).toBe("−0.2004 m");
    expect(metric.found(-1234567, "length")).toBe("−1,234,570 m");
  });

  test("is no row of noughts where it is a speck of its unit", () => {
    expect(us.found(1e-6, "level")).toBe("almost 0 ft");
    expect(us.found(1e-6, "length")).toBe("0.00004 in");
    expect(us.found(1e-9, "length")).toBe("almost 0 in");
    expect(metric.found(-1e-9, "bore")).toBe("a little under 0 mm");
    expect(metric.found(0, "bore")).toBe("0 mm");
    expect(us.found(0, "length")).toBe("0 ft");
    expect(metric.found(-1e-7, "number")).toBe("a little under 0");
    expect(metric.found(1e-9, "share")).toBe("almost 0 %");
    expect(metric.found(1e-7, "power")).toBe("almost 0 W");
  });
});

test("what is no figure names examples that fit its field", () => {
  const refused = (quantity: Parameters<typeof readQuantity>[0]): string => {
    const read = readQuantity(quantity, "rather much", "metric");
    return read.ok ? "" : read.error;
  };

  expect(refused("roughness")).toMatch(/understood are 0\.15 mm or 0\.006 in\.$/);
  expect(refused("grain")).toMatch(/understood are 16 mm or 5\/8 in\.$/);
  expect(refused("bore")).toMatch(/understood are 34 mm or 1 1\/2 in\.$/);
  expect(refused("place")).toMatch(/-30 cm/);
});

test("a field never holds a power of ten in letters, which it would not read back", () => {
  expect(fieldText("length", 1e-7, "metric")).toBe("0.0000001 m");
  expect(showNumber(1e-9, true)).toBe("0.0000001 %");
  expect(showNumber(1.5e-7)).toBe("0.00000015");
});
