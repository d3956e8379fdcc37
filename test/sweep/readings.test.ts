/** Every figure on every slip of every sample, read back from its characters and held against the report's own number.
 * A line that this table does not know fails: no figure comes onto a slip unchecked. */
import { describe, expect, test } from "vitest";
import { readingsOf } from "../../editor/panels/readings/readingsOf.ts";
import { assess } from "../../hydraulics/assess.ts";
import type { Part, Section } from "../../hydraulics/document/section.ts";
import { reportJson } from "../../hydraulics/report/json.ts";
import { drawingsIn, readDrawing, samples } from "../scenarios/readDrawing.ts";

const drawings = drawingsIn(samples).map((path): readonly [string, Section] => [path, readDrawing(path)]);

/** SI of one shown unit; metres, litres and hours by definition, nothing of the program's. */
const units: Readonly<Record<string, number>> = {
  "L/h": 1e-3 / 3600,
  "m³/h": 1 / 3600,
  "m/s": 1,
  "m/h": 1 / 3600,
  mm: 1e-3,
  m: 1,
  "m²": 1,
  L: 1e-3,
  "m³": 1,
  kg: 1,
  W: 1,
  "%": 0.01,
  min: 60,
  "×": 1,
  "": 1,
};

/** The number that a text begins with, in SI, and half of its last digit. */
function readBack(text: string): { readonly value: number; readonly half: number } {
  const match = /^([+−±]?)([\d,]+)(\.\d+)?\s*(L\/h|m³\/h|m\/s|m\/h|mm|m²|m³|kg|min|[mLW%×])?/u.exec(text);
  if (!match) throw new Error(`no figure in "${text}"`);
  const [, sign = "", whole = "", part = "", unit = ""] = match;
  const si = units[unit];
  if (si === undefined) throw new Error(`no unit in "${text}"`);
  const digits = whole.replaceAll(",", "");
  // Trailing noughts of a whole number do not count: 4,410 L/h has three digits.
  const noughts = part === "" ? (/0*$/.exec(digits)?.[0].length ?? 0) : 0;
  const step = part === "" ? 10 ** Math.min(noughts, Math.max(0, digits.length - 1)) : 10 ** -(part.length - 1);
  return { value: Number(`${sign === "−" ? "-" : ""}${digits}${part}`) * si, half: (step / 2) * si };
}

// biome-ignore lint/suspicious/noExplicitAny: the report as it is printed
type Report = any;
type Want = (report: Report, part: Part, section: Section) => number | string | null | undefined;

const of =
  (kind: string, key: string): Want =>
  (report, { id }) =>
    report.running[kind]?.[id]?.[key];
const pipeOf =
  (key: string): Want =>
  (report, part) =>
    "on" in part ? report.running.pipes[part.on.pipe]?.[key] : undefined;

const words = Symbol("words");
/** By kind and label. `words`: not a figure of the running state; looked at elsewhere. */
const wanted: Readonly<Record<string, Want | typeof words>> = {
  "pipe Flow": of("pipes", "flow"),
  "pipe Velocity": of("pipes", "velocity"),
  "pipe Friction over": of("pipes", "frictionLoss"),
  "pipe Bends, fittings and ends": of("pipes", "fittingLoss"),
  "pipe Loss per metre": of("pipes", "lossPerMetre"),
  "pipe By the other formula": of("pipes", "otherFormulaLoss"),
  "pipe Lowest pressure": of("pipes", "lowestPressureHead"),
  "pipe Highest pressure": of("pipes", "highestPressureHead"),
  "pipe Runs filled to": of("pipes", "fillRatio"),
  "pipe Froude number": of("pipes", "froude"),
  "pipe Controlled at": words,
  "pipe Share of the head of": (report, part) => {
    const pipe = report.running.pipes[part.id];
    const heads = Object.values(report.running.pumps as Record<string, { head: number; flow: number }>)
      .filter(({ flow, head }) => flow > 0 && head > 0)
      .map(({ head }) => (pipe.frictionLoss + pipe.fittingLoss) / head);
    // With several pumps the pipe's own end says which.
    if (part.kind !== "pipe" || heads.length === 1) return heads[0];
    const end = [part.from, part.to].find((each) => "part" in each && report.running.pumps[each.part]);
    return end && "part" in end
      ? (pipe.frictionLoss + pipe.fittingLoss) / report.running.pumps[end.part].head
      : undefined;
  },
  "pump Delivers": of("pumps", "flow"),
  "pump At a head of": of("pumps", "head"),
  "pump Likely between": (report, { id }) => report.running.pumps[id].flowRange[0],
  "pump By a straight curve it would": of("pumps", "straightLineFlow"),
  "pump Share of the greatest flow": of("pumps", "shareOfGreatest"),
  "pump Power to the water": of("pumps", "hydraulicPower"),
  "pump Wire to water": of("pumps", "efficiency"),
  "pump Cost of a year": of("pumps", "yearlyCost"),
  "pump Lowest pressure before it": of("pumps", "lowestSuction"),
  "pump At the first start": words,
  "vessel Water, running": of("vessels", "level"),
  "vessel Freeboard": of("vessels", "freeboard"),
  "vessel Inflow": of("vessels", "inflow"),
  "vessel Its outlets can carry": of("vessels", "returnCapacity"),
  "vessel Margin": of("vessels", "returnMargin"),
  "vessel Controlled at": words,
  "vessel Its outlets stop at": of("vessels", "restingLevel"),
  "vessel Upflow": of("vessels", "upflow"),
  "vessel Loss in the stone": of("vessels", "mediaLoss"),
  "vessel Clean, at this flow": (report, part) =>
    part.kind === "vessel" ? report.running.vessels[part.id].mediaLoss / (part.clogging ?? 1) : null,
  "vessel Clogged ten times, at this flow": (report, part) =>
    part.kind === "vessel" ? (10 * report.running.vessels[part.id].mediaLoss) / (part.clogging ?? 1) : null,
  "vessel Water in it": of("vessels", "waterVolume"),
  "vessel Gross volume": of("vessels", "grossVolume"),
  "vessel Filled weight": of("vessels", "filledMass"),
  "vessel Vessel volumes an hour": of("vessels", "turnover"),
  "vessel Retention time": of("vessels", "retention"),
  "vessel Settles grains over": of("vessels", "settlingDiameter"),
  "vessel Wetted stone": of("vessels", "wettedSurface"),
  "vessel After a power cut": (report, { id }) => report.powerCut.vessels[id].finalLevel,
  "vessel Water that leaves it": (report, { id }) => report.powerCut.vessels[id].litresOut / 1000,
  "vessel Its outlet runs, from empty": words,
  "pond Volume": of("ponds", "volume"),
  "pond Net inflow": of("ponds", "netInflow"),
  "pond Lost to the ground": of("ponds", "lossToGround"),
  "pond Highest after a power cut": (report, { id }) => report.powerCut.ponds[id].highestLevel,
  "pond In the end it stands at": (report, { id }) => report.powerCut.ponds[id].finalLevel,
  "pond Lowest at the first start": words,
  "pond Filling the vessels takes": words,
  "vent Tee level": of("vents", "teeLevel"),
  "vent Pressure at the tee": of("vents", "pressureHead"),
  "vent Tee over the vessel's water": (report, part, section) => {
    const pipe = part.kind === "vent" ? section.parts.get(part.on.pipe) : undefined;
    const end =
      pipe?.kind === "pipe"
        ? [pipe.to, pipe.from].find((each) => "part" in each && report.running.vessels[each.part])
        : undefined;
    return end && "part" in end
      ? report.running.vents[part.id].teeLevel - report.running.vessels[end.part].level
      : null;
  },
  "vent Spills": of("vents", "spill"),
  "vent Can pass air": of("vents", "air"),
  "vent When the power fails": words,
  "vent Air to water": (report, { id }) => report.powerCut.vents[id].airToWater,
  "vent A bore that would be ample": (report, { id }) =>
    // a hole to drill: told up to the next tenth of a millimetre
    Math.ceil((report.powerCut.vents[id].ampleBore ?? report.running.vents[id].ampleBore) * 1e4) / 1e4,
  "spillway Flow": of("spillways", "flow"),
  "spillway Water over the crest": of("spillways", "head"),
  "valve Flow in its pipe": pipeOf("flow"),
  "checkValve Flow in its pipe": pipeOf("flow"),
};

const keyOf = (part: Part, label: string): string =>
  `${part.kind} ${label.replace(/^(Friction over|Share of the head of) .*$/, "$1")}`;

describe.each(drawings)("%s", (_, section) => {
  const assessment = assess(section);
  const report = JSON.parse(JSON.stringify(reportJson(section, assessment))) as Report;

  test("every figure on every slip is the report's, to its last digit", () => {
    let checked = 0;
    for (const part of section.parts.values())
      for (const { label, value } of readingsOf(section, assessment, part, "metric").lines) {
        const want = wanted[keyOf(part, label)];
        expect(want, `"${keyOf(part, label)}" is on a slip and in no test`).toBeDefined();
        if (typeof want !== "function") continue;
        const figure = want(report, part, section);
        expect(typeof figure, `${part.id}: ${label}`).toBe("number");
        const { value: shown, half } = readBack(label === "Cost of a year" ? value.replace(/^[^\d]+/, "") : value);
        expect(Math.abs(shown - (figure as number)), `${part.id}: ${label} ${value}`).toBeLessThanOrEqual(
          half * 1.0001,
        );
        checked++;
      }
    expect(checked).toBeGreaterThan(10);
  });

  test("in feet and gallons the slips say the same", () => {
    for (const part of section.parts.values()) {
      const metric = readingsOf(section, assessment, part, "metric").lines;
      const us = readingsOf(section, assessment, part, "us").lines;
      expect(us.length).toBe(metric.length);
      metric.forEach(({ label, value }, k) => {
        const flow = /^(−?[\d,.]+) L\/h$/.exec(value)?.[1];
        const gallons = /^(−?[\d,.]+) gph$/.exec(us[k]?.value ?? "")?.[1];
        if (flow === undefined) return;
        const number = (text: string) => Number(text.replaceAll(",", "").replace("−", "-"));
        // A US gallon is 3.785411784 L by definition; each side shows three digits.
        if (number(flow) !== 0)
          expect(Math.abs((number(gallons ?? "0") * 3.785411784) / number(flow) - 1), label).toBeLessThan(0.011);
      });
    }
  });
});
