import { siteOf } from "../document/defaults.ts";
import type { Section, Vessel } from "../document/section.ts";
import { bedSlices, planArea } from "../document/volumes.ts";
import { stoneDensity } from "../formulas/stoneDensity.ts";
import { waterDensity } from "../formulas/water.ts";
import type { VesselReading } from "../solver/running.ts";
import { printed as p, type Worked } from "./worked.ts";

export function vesselWorked(section: Section, vessel: Vessel, reading: VesselReading): readonly Worked[] {
  const area = planArea(vessel);
  const height = vessel.rimLevel - vessel.baseLevel;
  const layers = bedSlices(vessel);
  const rows: Worked[] = [];
  if (reading.returnMargin !== null && reading.returnCapacity > 0)
    rows.push({
      what: "Margin of the return",
      law: "what its outlets carry at the rim less the freeboard / what comes in",
      expression: `${p(reading.returnCapacity)} / ${p(reading.inflow)}`,
      result: reading.returnMargin,
      unit: "×",
      source: "inlet control by FHWA HDS-5, critical depth at the outlet, losses along the route",
    });
  rows.push(
    {
      what: "Gross volume",
      law: "V = A·(rim − base)",
      expression:
        vessel.plan.shape === "round"
          ? `3.14159 · ${p(vessel.plan.diameter)}^2 / 4 · ${p(height)}`
          : `${p(vessel.plan.width)} · ${p(vessel.plan.length)} · ${p(height)}`,
      result: reading.grossVolume,
      unit: "m³",
      source: "the drawing",
    },
    {
      what: "Water in it",
      law: "A·(level − base) less Σ A·depth·(1 − voids)",
      expression: [
        `${p(area)} · ${p(reading.level - vessel.baseLevel)}`,
        ...layers.flatMap(({ from, to, porosity }) => {
          const wet = Math.max(0, Math.min(to, reading.level) - from);
          return wet > 0 ? [`${p(area)} · ${p(wet)} · (1 − ${p(porosity)})`] : [];
        }),
      ].join(" − "),
      result: reading.waterVolume,
      unit: "m³",
      source: "the drawing, at the running level",
    },
    {
      what: "Filled weight",
      law: "Σ A·depth·(1 − voids)·2650 + ρ·water",
      expression: [
        ...layers.map(
          ({ from, to, porosity }) => `${p(area)} · ${p(to - from)} · (1 − ${p(porosity)}) · ${stoneDensity}`,
        ),
        `${p(reading.waterVolume)} · ${p(waterDensity(siteOf(section).waterTemperature))}`,
      ].join(" + "),
      result: reading.filledMass,
      unit: "kg",
      source: "stone of 2,650 kg/m³: common practice, no source",
    },
  );
  if (reading.turnover !== null && reading.retention !== null)
    rows.push(
      {
        what: "Vessel volumes an hour",
        law: "Q·3600 / gross volume",
        expression: `${p(reading.inflow)} · 3600 / ${p(reading.grossVolume)}`,
        result: reading.turnover,
        unit: "an hour",
        source: "all that comes in",
      },
      {
        what: "Retention time",
        law: "water in it / Q",
        expression: `${p(reading.waterVolume)} / ${p(reading.inflow)} / 60`,
        result: reading.retention / 60,
        unit: "min",
        source: "the mean; channels in the stone make it shorter",
      },
    );
  return rows;
}
