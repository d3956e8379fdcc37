/** Sentences of results in the sheet's own units. `sentenceIn` turns every figure that carries its unit; here are
 * besides it the first figures of ranges, which borrow theirs (`0.3 to 1.5 m/h`), and rates of rise (m/h). */
import { sentenceIn } from "../sheet/sentence.ts";
import { formatNumber, type UnitSystem } from "../sheet/units.ts";

const foot = 0.3048;
const range =
  /(\d[\d,]*(?:\.\d+)?) (to|and|of|from) (\d[\d,]*(?:\.\d+)?) (m\/h|L\/h|m³\/h|m\/s|mm|m³|L|m|kg)(?![\p{L}\d/³²])/gu;
const rise = /(\d[\d,]*(?:\.\d+)?) m\/h(?![\p{L}\d/])/gu;

export function inSheetUnits(text: string, system: UnitSystem): string {
  if (system === "metric") return text;
  const whole = text.replace(
    range,
    (_, first: string, word: string, second: string, unit: string) => `${first} ${unit} ${word} ${second} ${unit}`,
  );
  return sentenceIn(
    whole.replace(rise, (_, amount: string) => `${formatNumber(Number(amount.replaceAll(",", "")) / foot, 3, 2)} ft/h`),
    system,
  );
}
