/** A sentence is made in metres and litres and turned into feet and gallons from its rounded text. What is shown beside it
 * has to come out as the same figure. */
import { describe, expect, test } from "vitest";
import { sentenceIn } from "../../editor/sheet/sentence.ts";
import { formatBore, formatFlow, formatLevel, formatVolume } from "../../editor/sheet/units.ts";
import { flowWords } from "../../hydraulics/findings/words.ts";
import { levelWords, litreWords } from "../../hydraulics/powerCut/words.ts";
import { shown } from "../../hydraulics/report/shown.ts";

const inUs = (text: string): string => sentenceIn(text, "us", []);

/** Evenly over some decades, and never twice the same digits. */
const spread = (least: number, most: number): readonly number[] =>
  Array.from({ length: 5000 }, (_, k) => least * (most / least) ** ((k + 0.618) / 5000));

describe("in US units a figure in a sentence is the one beside it", () => {
  test("of a level: +0.11431 m is not +0.38 ft over +0.37 ft", () => {
    expect(formatLevel(0.11431, "us")).toBe(inUs(levelWords(0.11431)));
    for (const size of spread(0.0001, 90))
      for (const level of [size, -size]) {
        expect(formatLevel(level, "us")).toBe(inUs(levelWords(level)));
        expect(Number.parseFloat(shown("level", level, "us"))).toBe(
          Number(formatLevel(level, "us").replace("−", "-").replace("±", "")),
        );
      }
  });

  test("of a flow and of a volume", () => {
    for (const litres of spread(0.2, 90_000)) {
      expect(formatFlow(litres / 3.6e6, "us")).toBe(inUs(flowWords(litres / 3.6e6)));
      expect(formatVolume(litres / 1000, "us")).toBe(inUs(litreWords(litres / 1000)));
    }
  });

  test("and round figures of either unit stay round", () => {
    for (const k of spread(0.01, 300)) {
      const feet = Number(k.toFixed(2));
      expect(Number(formatLevel(feet * 0.3048, "us").replace("±", ""))).toBe(feet);
      const gallons = Number(k.toPrecision(3));
      // To a tenth, as volumes are shown.
      if (gallons >= 10) expect(Number.parseFloat(formatVolume(gallons * 231 * 0.0254 ** 3, "us"))).toBe(gallons);
    }
  });

  test("and no further from the truth than the digits that are shown", () => {
    for (const level of spread(0.001, 90))
      expect(Math.abs(Number(formatLevel(level, "us").replace("±", "")) - level / 0.3048)).toBeLessThan(0.0067);
  });
});

test("what is far finer than a bore keeps two digits in either unit", () => {
  expect(formatBore(0.00016, "metric")).toBe("0.16 mm");
  expect(formatBore(0.00016, "us")).toBe("0.0063 in");
  expect(formatBore(1.5e-6, "metric")).toBe("0.0015 mm");
  expect(formatBore(1.5e-6, "us")).toBe("0.000059 in");
  expect(formatBore(0.0272, "metric")).toBe("27.2 mm");
  expect(formatBore(0.0381, "us")).toBe("1.5 in");
  expect(formatBore(0.001, "metric")).toBe("1 mm");
  expect(formatBore(0, "us")).toBe("0 in");
});
