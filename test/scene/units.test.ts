/** What is shown and what may be typed. Factors are exact by definition (international foot and pound of 1959, US
 * gallon of 231 cubic inches, NIST Handbook 44, appendix C). */
import { describe, expect, test } from "vitest";
import { sentenceIn } from "../../editor/sheet/sentence.ts";
import {
  exactText,
  fieldText,
  fineFieldText,
  format,
  formatDimension,
  formatFlow,
  formatLength,
  formatLevel,
  formatMass,
  formatMoney,
  formatNumber,
  formatPressure,
  formatTime,
  formatVolume,
  noFigure,
  parseQuantity,
  type Quantity,
} from "../../editor/sheet/units.ts";

const typed = (quantity: Quantity, text: string, system: "metric" | "us" = "metric"): number | string => {
  const result = parseQuantity(quantity, text, system);
  return result.ok ? result.value : result.error;
};

describe("shown", () => {
  test("levels carry their sign, three places in metres and two in feet", () => {
    expect([0.474, -0.03, 0, -0.0002, 1].map((level) => formatLevel(level, "metric"))).toEqual([
      "+0.474",
      "−0.030",
      "±0.000",
      "±0.000",
      "+1.000",
    ]);
    expect(formatLevel(0.3048, "us")).toBe("+1.00");
  });

  test("flows have thousands set apart and digits that mean something", () => {
    expect(formatFlow(2210.4 / 3.6e6, "metric")).toBe("2,210 L/h");
    expect(formatFlow(0, "metric")).toBe("0 L/h");
    expect(formatFlow(-600 / 3.6e6, "metric")).toBe("−600 L/h");
    expect(formatFlow(120 / 3600, "metric")).toBe("120 m³/h");
    expect(formatFlow((160 * 231 * 0.0254 ** 3) / 3600, "us")).toBe("160 gph");
  });

  test("lengths in feet are read off a tape, to the eighth of an inch", () => {
    expect(formatLength(8 * 0.3048 + 3 * 0.0254, "us")).toBe("8 ft 3 in");
    expect(formatLength(0.0381, "us")).toBe("1 1/2 in");
    expect(formatLength(0.3048, "us")).toBe("1 ft");
    expect(formatLength(0.3047, "us")).toBe("1 ft");
    expect(formatLength(0, "us")).toBe("0 in");
    expect(formatLength(-0.3048, "us")).toBe("−1 ft");
  });

  test("small lengths are millimetres, dimensions always metres to the millimetre", () => {
    expect(formatLength(0.05, "metric")).toBe("50 mm");
    expect(formatLength(0.504, "metric")).toBe("0.504 m");
    expect(formatLength(4.1234, "metric")).toBe("4.12 m");
    expect(formatDimension(2.6, "metric")).toBe("2.600 m");
  });

  test("a loss of less than a millimetre keeps its figure, and noise of rounding is nothing", () => {
    expect(format("head", 0.0001904, "metric")).toBe("0.19 mm");
    expect(format("head", -0.0001904, "us")).toBe("−0.007 in");
    expect(format("head", 0.00094, "metric")).toBe("0.94 mm");
    expect(format("head", 0.00096, "metric")).toBe("0.001 m");
    expect(format("head", -1.8e-15, "metric")).toBe("0 m");
  });

  test("a metre of water is 1.421 psi at 15 °C", () => {
    // 999.1 kg/m³ × 9.80665 m/s² / 6894.757 Pa per psi
    expect(formatPressure(1, "us")).toBe("1.42 psi");
  });

  test("weights, volumes and money", () => {
    expect(formatMass(420, "metric")).toBe("420 kg");
    expect(formatMass(420, "us")).toBe("926 lb");
    expect(formatVolume(0.31, "metric")).toBe("310 L");
    expect(formatVolume(13.2, "metric")).toBe("13.2 m³");
    expect(formatMoney(73.6, "EUR")).toBe("EUR 74");
    expect(formatMoney(1234, "")).toBe("1,234");
  });

  test("times are short words", () => {
    expect([0, 6, 60, 78, 300, 3600, 7800, 172_800].map(formatTime)).toEqual([
      "0 s",
      "6 s",
      "1 min",
      "78 s",
      "5 min",
      "1 h",
      "2 h 10 min",
      "48 h",
    ]);
  });

  test("what is no number is a dash, never NaN", () => {
    const quantities: readonly Quantity[] = [
      "length",
      "level",
      "bore",
      "flow",
      "velocity",
      "volume",
      "head",
      "pressure",
      "mass",
      "power",
      "temperature",
    ];
    for (const quantity of quantities) {
      for (const system of ["metric", "us"] as const) {
        for (const value of [Number.NaN, Number.POSITIVE_INFINITY]) {
          expect(format(quantity, value, system)).toContain(noFigure);
          expect(format(quantity, value, system)).not.toMatch(/NaN|Infinity/);
        }
      }
    }
    expect(formatNumber(1234567, 3)).toBe("1,230,000");
  });
});

describe("typed", () => {
  test.each([
    ["length", "2.4 m", 2.4],
    ["length", "2,4", 2.4],
    ["length", "8 ft 3 in", 2.5146],
    ["length", "8' 3\"", 2.5146],
    ["length", "8'3", 2.5146],
    ["length", "8 ft 3 1/2 in", 2.5273],
    ["length", "240cm", 2.4],
    ["length", "1,200 mm", 1.2],
    ["length", "1.200 m", 1.2],
    ["bore", "1 1/2 in", 0.0381],
    ["bore", '1½"', 0.0381],
    ["bore", "1-1/2 in", 0.0381],
    ["bore", "1-½ in", 0.0381],
    ["bore", '1-1/4"', 0.03175],
    ["length", "8 ft 3-1/2 in", 2.5273],
    ["length", "8'-3 1/2\"", 2.5273],
    ["level", "-1/2 in", -0.0127],
    ["level", "-1-1/2 in", -0.0381],
    ["bore", "3/4 in", 0.01905],
    ["bore", "25 mm", 0.025],
    ["bore", "27.2", 0.0272],
    ["flow", "600 L/h", 600 / 3.6e6],
    ["flow", "2,210 L/h", 2210 / 3.6e6],
    ["flow", "0.5 l/s", 0.0005],
    ["flow", "160 gph", (160 * 231 * 0.0254 ** 3) / 3600],
    ["flow", "3 gpm", (3 * 231 * 0.0254 ** 3) / 60],
    ["flow", "2.4 m³/h", 2.4 / 3600],
    ["flow", "2.4 m^3/h", 2.4 / 3600],
    ["flow", "2.4m3/h", 2.4 / 3600],
    ["volume", "1.5 m3", 1.5],
    ["volume", "10 ft3", 10 * 0.3048 ** 3],
    ["length", "8ft3", 8 * 0.3048 + 3 * 0.0254],
    ["level", "+0.474", 0.474],
    ["level", "−0.030", -0.03],
    ["level", "-30 mm", -0.03],
    ["level", "±0.000", 0],
    ["temperature", "59 °F", 15],
    ["power", "1,200 W", 1200],
    ["money", "0,30", 0.3],
  ] as const)("%s: %s", (quantity, text, si) => {
    expect(typed(quantity, text)).toBeCloseTo(si, 9);
  });

  test("a bare number is in the unit shown", () => {
    expect(typed("length", "8", "us")).toBeCloseTo(2.4384, 9);
    expect(typed("flow", "160", "us")).toBeCloseTo((160 * 231 * 0.0254 ** 3) / 3600, 12);
    expect(typed("temperature", "59", "us")).toBeCloseTo(15, 9);
  });

  test.each([
    ["length", ""],
    ["length", "wide"],
    ["length", "2.4 m 3"],
    ["length", "3 in 8 ft"],
    ["length", "3-4 in"],
    ["length", "3-4"],
    ["length", "2-3/2 in"],
    ["length", "11-1 1/2 in"],
    ["length", "8 ft - 3 in"],
    ["length", "1/0 in"],
    ["length", "-2 m"],
    ["length", "1.2.3 m"],
    ["length", "2 L/h"],
    ["flow", "2 m"],
    ["length", "NaN"],
    ["length", "1e5"],
    ["length", "0x10"],
    ["length", "9".repeat(80)],
  ] as const)("%s: %j is refused in words that say what is understood", (quantity, text) => {
    expect(typed(quantity, text)).toMatch(/understood are/);
  });

  test("what a field holds reads back, and with every digit as the same value", () => {
    for (const quantity of [
      "length",
      "level",
      "bore",
      "flow",
      "velocity",
      "volume",
      "head",
      "mass",
      "power",
    ] as const) {
      for (const system of ["metric", "us"] as const) {
        for (const value of [0.0272, 0.5, 1.234, 12.5]) {
          const back = typed(quantity, exactText(quantity, value, system), system);
          expect((back as number) / value).toBeCloseTo(1, 5);
          const near = typed(quantity, fieldText(quantity, value, system), system);
          expect((near as number) / value).toBeCloseTo(1, 2);
        }
      }
    }
  });
});

test("a metre turned into feet stands in a field with the digits that matter", () => {
  expect(fieldText("level", -0.04, "us")).toBe("−0.131 ft");
  expect(fieldText("length", 2.6, "us")).toBe("8.53 ft");
  expect(fieldText("bore", 0.032, "us")).toBe("1.26 in");
  expect(fieldText("bore", 0.005, "us")).toBe("0.197 in");
  expect(fieldText("bore", 0.0001, "us")).toBe("0.0039 in");
  expect(fieldText("flow", 3000 / 3.6e6, "us")).toBe("792.5 gph");
  expect(fineFieldText("bore", 1.5e-6, "us")).toBe("0.0000591 in");
  expect(fieldText("level", 2.7e-17, "us")).toBe("0 ft");
  expect(fieldText("level", -0.04, "metric")).toBe("−0.04 m");
});

test("what was typed in the unit shown stays as it was typed", () => {
  expect(fieldText("level", 1.65625 * 0.3048, "us")).toBe("1.65625 ft");
  expect(fieldText("flow", typed("flow", "12345 gph") as number, "us")).toBe("12345 gph");
  expect(fieldText("level", 0, "us")).toBe("0 ft");
});

test("what a rule of thumb says of itself is turned like a result", () => {
  const turned = (text: string): string => sentenceIn(text, "us", []);

  // 1 kPa is 20.885 lb/ft².
  expect(turned("decks are designed for 2 to 5 kPa: never on a deck")).toBe(
    "decks are designed for 42 lb/ft² to 104 lb/ft²: never on a deck",
  );
  expect(turned("lived on in 150 mm")).toBe("lived on in 5.91 in");
});

test("sentences of results change their figures with the sheet's units and nothing else", () => {
  const text =
    "Breather lets air in at +0.550: 1,723 L/h enter; it ends at −0.030. 3.9 L fall back, 0.305 m lower, 3 pumps, pipe 2.";

  expect(sentenceIn(text, "metric", [])).toBe(text);
  expect(sentenceIn(text, "us", [])).toBe(
    "Breather lets air in at +1.80: 455 gph enter; it ends at −0.10. 1.0 gal fall back, 1 ft lower, 3 pumps, pipe 2.",
  );
});
