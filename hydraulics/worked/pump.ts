import { makersFlow, siteOf } from "../document/defaults.ts";
import type { Pump, Section } from "../document/section.ts";
import { waterDensity } from "../formulas/water.ts";
import type { PumpReading } from "../solver/running.ts";
import { printed as p, type Worked } from "./worked.ts";

export function pumpWorked(section: Section, pump: Pump, reading: PumpReading): readonly Worked[] {
  const site = siteOf(section);
  const rows: Worked[] = [];
  if (reading.flow > 0 && reading.hydraulicPower > 0)
    rows.push({
      what: "Power to the water",
      law: "P = ρ·g·Q·H",
      expression: `${p(waterDensity(site.waterTemperature))} · 9.80665 · ${p(reading.flow)} · ${p(reading.head)}`,
      result: reading.hydraulicPower,
      unit: "W",
      source: "work per time of lifting; ρ of water by IAPWS correlations",
    });
  if (reading.shareOfGreatest !== null && reading.flow > 0)
    rows.push({
      what: "Share of the greatest flow",
      law: "Q / Qmax",
      expression: `100 · ${p(reading.flow)} / ${p(makersFlow(pump))}`,
      result: 100 * reading.shareOfGreatest,
      unit: "%",
      source: "the maker's greatest flow, at full speed",
    });
  if (pump.watts !== undefined && reading.efficiency !== null && reading.hydraulicPower > 0)
    rows.push({
      what: "Wire to water",
      law: "P / W",
      expression: `100 · ${p(reading.hydraulicPower)} / ${p(pump.watts)}`,
      result: 100 * reading.efficiency,
      unit: "%",
      source: "the maker's watts",
    });
  if (pump.watts !== undefined && reading.yearlyCost !== null)
    rows.push({
      what: "Cost of a year",
      law: "W/1000 · 8760 h · price of a kWh",
      expression: `${p(pump.watts)} / 1000 · 8760 · ${p(site.tariff)}`,
      result: reading.yearlyCost,
      unit: site.currency,
      source: "day and night, 365 days",
    });
  return rows;
}
